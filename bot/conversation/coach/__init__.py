"""What a coach says and gets. Nothing here is reached by anybody who isn't an enrolled coach, with the own runners."""
