"""The README shows what really happens."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.support.readme import README, chat_block, played

BLOCKS = re.findall(r"```sh\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
TARGETS = re.compile(r"^([a-z-]+):", re.MULTILINE)


def test_the_chat_is_what_the_bot_says_today(tmp_path: Path) -> None:
    assert played(chat_block(), tmp_path) == chat_block(), "run: python -m tests.support.readme"


def test_the_first_block_names_two_commands_that_exist() -> None:
    named = re.findall(r"^make (\S+)", BLOCKS[0], re.MULTILINE)
    makefile = README.with_name("Makefile").read_text(encoding="utf-8")
    assert named == ["chat", "test"]
    assert set(named) <= set(TARGETS.findall(makefile))


@pytest.mark.servers
def test_all_other_blocks_run_one_after_the_other(tmp_path: Path) -> None:
    folder = Path(sys.executable).parent
    env = {**os.environ, "PATH": f"{folder}{os.pathsep}{os.environ['PATH']}", "PYTHONPATH": str(README.parent)}
    for block in BLOCKS[1:]:
        done = subprocess.run(["bash", "-euo", "pipefail", "-c", block], cwd=tmp_path, env=env, capture_output=True)
        assert done.returncode == 0, done.stderr.decode()
        assert done.stdout
