"""Reads back what the headless main job wrote, with nothing of the program's own: every hose of
every routing has a cut length, the sheets name it, and the figures of report and sheets agree."""

import csv
import html.parser
import json
import math
import pathlib
import sys

folder = pathlib.Path(sys.argv[1])


class Text(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.words = []

    def handle_starttag(self, tag, attrs):
        assert tag != "script", "a sheet holds no script"
        for name, value in attrs:
            if name in ("src", "href"):
                assert value.startswith(("#", "data:")), f"the sheet is not self-contained: {value}"

    def handle_data(self, data):
        self.words.append(data)


def check_flow(where, run, row, facts, words):
    """The flow of a run: reckoned again by the laminar law where it is laminar, and told alike in report,
    table and page; where it is not known the reason is told. 1 where it is known."""
    flow = run.get("flow")
    if flow is None:
        assert row["pressure_drop_bar"] == row["reynolds"] == "", where
        assert bool(row["flow_lpm"]) == ("flow_not_known" in run) == bool(facts), where
        if facts:
            assert run["flow_not_known"] in words and "unknown" in facts[0]["value"], where
        return 0
    area = math.pi / 4 * (flow["bore_mm"] / 1000) ** 2
    velocity = float(row["flow_lpm"]) / 60000 / area
    assert math.isclose(flow["velocity_m_s"], velocity, rel_tol=1e-9), where
    head = flow["properties"]["density_kg_m3"] * velocity**2 / 2
    friction = flow["friction_factor"] * flow["length_mm"] / flow["bore_mm"] * head / 1e5
    assert math.isclose(flow["friction_bar"], friction, rel_tol=1e-9), where
    assert math.isclose(flow["pressure_drop_bar"], flow["friction_bar"] + flow["bends_bar"], rel_tol=1e-9), where
    assert flow["length_mm"] == run["cut_length_mm"], where
    thin, thick = flow["properties"]["viscosity_mm2_s"]
    diameters = velocity * flow["bore_mm"] * 1000
    assert diameters / thick * 0.999999 <= flow["reynolds"] <= diameters / thin * 1.000001, where
    if flow["reynolds"] < 1000:
        assert math.isclose(flow["friction_factor"], 64 / flow["reynolds"], rel_tol=1e-3), where
    assert float(row["pressure_drop_bar"]) == flow["pressure_drop_bar"], where
    assert row["flow_regime"] == flow["regime"], where
    assert facts[0]["label"] == "flow" and flow["regime"] in facts[0]["value"], where
    assert facts[0]["value"] in words and "Churchill" in facts[0]["remark"], where
    assert facts[1]["label"] == "fluid" and facts[1]["value"] in words, where
    assert ("cold_start" in flow) == (len(facts) == 3), where
    return 1


runs, flows = 0, 0
for report_file in sorted(folder.glob("*.json")):
    if ".sheet." in report_file.name or ".compare." in report_file.name:
        continue
    report = json.loads(report_file.read_text())
    assert report["report"] == "hosewright-check" and report["version"] == 1
    stem = report_file.stem
    page = Text()
    page.feed((folder / f"{stem}.sheet.html").read_text())
    words = " ".join(" ".join(page.words).split())
    with open(folder / f"{stem}.sheet.csv", newline="") as file:
        rows = list(csv.DictReader(file))
    sheet = json.loads((folder / f"{stem}.sheet.json").read_text())
    told = {hose["id"]: hose["flow"] for hose in sheet["hoses"]}
    assert len(rows) == len(report["runs"]), f"{stem}: one row a hose"
    for run in report["runs"]:
        where = f"{stem} {run['id']}"
        cut = run["cut_length_mm"]
        assert cut >= run["centreline_mm"] > 0, where
        assert math.isclose(cut, run["centreline_mm"] + run["slack_mm"], abs_tol=1e-6), where
        assert cut - 1e-6 <= run["bench_mm"] < cut + 1, f"{where}: rounded up to 1 mm"
        whole, _, rest = run["bench_inch"].partition(" ")
        if "/" in whole:
            whole, rest = "0", whole
        top, _, bottom = (rest or "0/1").partition("/")
        inch = int(whole) + int(top) / int(bottom)
        assert cut - 1e-6 <= inch * 25.4 < cut + 25.4 / 16, f"{where}: rounded up to 1/16 in"
        assert run["bench_inch"] in words and str(run["bench_mm"]) in words, f"{where}: on the sheet"
        assert any(str(run["bench_mm"]) in row.values() for row in rows), f"{where}: in the table"
        row = next(row for row in rows if row["hose_id"] == run["id"])
        flows += check_flow(where, run, row, told[run["id"]], words)
        runs += 1
compared = 0
for file in sorted(folder.glob("*.compare.json")):
    stem = file.name.removesuffix(".compare.json")
    comparison = json.loads(file.read_text())
    assert comparison["report"] == "hosewright-compare" and comparison["version"] == 1
    figures = {row["figure"]: row["values"] for row in comparison["figures"]}
    for place, routing in enumerate(comparison["routings"]):
        report = json.loads((folder / f"{stem}-{routing['id']}.json").read_text())
        fails = sum(one["severity"] == "fail" for one in report["findings"])
        # What comes of a fault counts with its cause.
        counted = figures["fails"][place]["value"]
        assert counted <= fails and (counted > 0) == (fails > 0), f"{stem} {routing['id']}"
        # What is cut, each length rounded up to the step of the bench.
        step = 25.4 / 16 if comparison["show_units"] == "inch" else 1.0
        hose = sum(math.ceil(run["cut_length_mm"] / step - 1e-6 / step) * step for run in report["runs"])
        assert math.isclose(figures["hose"][place]["value"], hose, abs_tol=1e-6), f"{stem}: hose"
        compared += 1
    page = Text()
    page.feed((folder / f"{stem}.compare.html").read_text())
    assert comparison["sentence"] in " ".join(" ".join(page.words).split()), f"{stem}: the sentence"
    with open(folder / f"{stem}.compare.csv", newline="") as table:
        rows = list(csv.DictReader(table))
    assert {row["routing"] for row in rows} == {one["id"] for one in comparison["routings"]}
assert compared >= 6, "the routings were compared"
assert runs >= 34, "the demo bays were read"
assert flows >= 30, "the flow of the demo bays was read"
print(f"{runs} hoses read back from report, HTML, CSV and JSON")
