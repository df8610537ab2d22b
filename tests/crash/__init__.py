"""What an owner entered stays: killed processes, power cuts and refusing disks, tried at length."""
