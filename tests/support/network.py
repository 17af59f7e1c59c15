"""The network between a process and its database, which a test can cut, silence and mend."""

from contextlib import suppress
from pathlib import Path
from socket import AF_UNIX, SHUT_RDWR, create_server, socket
from threading import Event, Semaphore, Thread

LARGEST = 65_536


class Network:
    """A port of this machine from which all goes to a server's socket. *refused*: one for each try to connect while
    it is cut; *withheld*: something was said that did not get through.
    """

    def __init__(self, server: Path) -> None:
        """*server*: the path of its socket."""
        self.server = server
        self.door = create_server(("127.0.0.1", 0))
        self.port = int(self.door.getsockname()[1])
        self.ends: list[socket] = []
        self.is_cut = False
        self.flows, self.withheld, self.refused = Event(), Event(), Semaphore(0)
        self.flows.set()
        Thread(target=self._let_in, daemon=True).start()

    def cut(self) -> int:
        """Every connection ends, and no new one comes about. How many ended."""
        self.is_cut = True
        return self._end_all() // 2

    def silence(self) -> None:
        """Nothing gets through any more, and neither side is told."""
        self.withheld.clear()
        self.flows.clear()

    def mend(self) -> None:
        """New connections come about; what was connected while nothing got through is lost."""
        if not self.flows.is_set():
            self._end_all()
        self.is_cut = False
        self.flows.set()

    def close(self) -> None:
        """Nobody gets in any more."""
        self.door.close()
        self.cut()
        self.flows.set()

    def _let_in(self) -> None:
        with suppress(OSError):
            while True:
                near, _ = self.door.accept()
                if self.is_cut:
                    near.close()
                    self.refused.release()
                else:
                    self._join(near)

    def _join(self, near: socket) -> None:
        far = socket(AF_UNIX)
        try:
            far.connect(str(self.server))
        except OSError:
            near.close()
            return
        self.ends += (near, far)
        for pair in ((near, far), (far, near)):
            Thread(target=self._carry, args=pair, daemon=True).start()

    def _carry(self, source: socket, target: socket) -> None:
        with suppress(OSError):
            while said := source.recv(LARGEST):
                if not self.flows.is_set():
                    self.withheld.set()
                    self.flows.wait()
                target.sendall(said)
        _end(target)

    def _end_all(self) -> int:
        ended, self.ends = self.ends, []
        for each in ended:
            _end(each)
        return len(ended)


def _end(side: socket) -> None:
    with suppress(OSError):
        side.shutdown(SHUT_RDWR)
