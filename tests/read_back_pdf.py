"""Reads back what is printed, with poppler's tools and nothing of the program's own: sheets, labels and
comparisons of the demo bays (written by `.ci/run` into a folder), names in many scripts, words far too
long, and full-size templates measured in the PDF's own coordinates.

    python3 tests/read_back_pdf.py FOLDER PROGRAM
"""

import csv
import html
import json
import math
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import zlib

folder, program = pathlib.Path(sys.argv[1]), sys.argv[2]
demo = pathlib.Path(__file__).parent.parent / "demo_projects"
# The bay whose hoses are right and wrong by turns.
faulty = demo / "faults-on-purpose.bay.json"
POINT = 25.4 / 72.0
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
# The tiles of a template share this, mm (`OVERLAP` in src/export/pdf/tiles.rs).
OVERLAP = 15.0
# The colour of a centre line, red, green, blue.
CENTRE_LINE = (0x00, 0x72, 0xB2)

for tool in ("pdfinfo", "pdftotext", "pdffonts", "pdftoppm"):
    if shutil.which(tool) is None:
        sys.exit(f"{tool} is not here: install poppler-utils")


def told(*args):
    return subprocess.run([str(a) for a in args], check=True, capture_output=True, text=True).stdout


def write(*args):
    ended = subprocess.run([program, *map(str, args)], capture_output=True, text=True)
    assert ended.returncode == 0, f"{args}: {ended.stderr}"


def squeezed(words):
    return "".join(words.split())


def pages_of(pdf):
    return int(re.search(r"Pages:\s+(\d+)", told("pdfinfo", pdf)).group(1))


def check_pages(pdf, paper):
    """Boxes of the paper, fonts embedded, every page numbered and not blank, nothing off it."""
    count = pages_of(pdf)
    sizes = re.findall(r"Page\s+\d+ size:\s+([\d.]+) x ([\d.]+) pts", told("pdfinfo", "-l", count, pdf))
    assert len(sizes) == count, pdf
    for size in sizes:
        for found, wanted in zip(map(float, size), PAPERS[paper]):
            assert abs(found * POINT - wanted) < 0.05, f"{pdf}: {size}"
    fonts = told("pdffonts", pdf).splitlines()[2:]
    assert fonts, pdf
    for font in fonts:
        embedded, subset, unicode = re.search(r"(yes|no)\s+(yes|no)\s+(yes|no)\s+\d+\s+\d+$", font).groups()
        assert (embedded, subset, unicode) == ("yes", "yes", "yes"), f"{pdf}: {font}"
    words = told("pdftotext", "-layout", pdf, "-")
    for page in range(1, count + 1):
        assert f"page {page} of {count}" in words, f"{pdf}: page {page} is not numbered"
    boxes = told("pdftotext", "-bbox", pdf, "-")
    width, height = (mm / POINT for mm in PAPERS[paper])
    for box in re.findall(r'<word xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" yMax="(\S+)">', boxes):
        left, top, right, foot = map(float, box)
        assert left > 8 and top > 8 and right < width - 8 and foot < height - 8, f"{pdf}: words off the page {box}"
    with tempfile.TemporaryDirectory() as room:
        told("pdftoppm", "-r", 40, "-gray", pdf, pathlib.Path(room) / "p")
        pictures = sorted(pathlib.Path(room).glob("*.pgm"))
        assert len(pictures) == count, pdf
        for picture in pictures:
            head, across, down, data = pgm(picture.read_bytes())
            ink = sum(1 for value in data if value < 128)
            assert ink > 50, f"{pdf}: a blank page"
            rows = [data[i * across:(i + 1) * across] for i in range(down)]
            edge = rows[0] + rows[-1] + bytes(row[0] for row in rows) + bytes(row[-1] for row in rows)
            assert min(edge) > 200, f"{pdf}: something runs off the page"
    return told("pdftotext", pdf, "-")


def pgm(data):
    head = re.match(rb"(P5)\s+(\d+)\s+(\d+)\s+255\s", data)
    return head.group(1), int(head.group(2)), int(head.group(3)), data[head.end():]


def contents(pdf):
    """The drawing orders of every page, unpacked."""
    data = pathlib.Path(pdf).read_bytes()
    pages = re.findall(rb"<</Type/Page/[^>]*?/Contents (\d+) 0 R", data)
    assert pages, pdf
    found = []
    for number in pages:
        head = re.search(rb"\n" + number + rb" 0 obj\n<</Length (\d+)/Filter/FlateDecode>>\s*stream\r?\n", data)
        packed = data[head.end():head.end() + int(head.group(1))]
        found.append(zlib.decompress(packed).decode("latin-1"))
    return found


NUMBER = r"-?\d*\.?\d+"
STROKED = re.compile(
    rf"q ((?:{NUMBER} ){{6}})cm ((?:{NUMBER} ){{3}})RG ({NUMBER}) w (?:[^q]*?)((?:{NUMBER} {NUMBER} [ml]\s)+)S\s"
)


def paths(page, colour=None, width_mm=None):
    """The stroked paths of a page in mm on paper, y down from its foot, by colour or width of line."""
    found = []
    for matrix, rgb, width, path in STROKED.findall(page):
        a, b, c, d, e, f = map(float, matrix.split())
        if colour and any(abs(x - y / 255.0) > 0.003 for x, y in zip(map(float, rgb.split()), colour)):
            continue
        if width_mm and abs(float(width) * POINT - width_mm) > 0.004:
            continue
        points = [tuple(map(float, step.split()[:2])) for step in re.findall(rf"{NUMBER} {NUMBER} [ml]", path)]
        found.append([((a * x + c * y + e) * POINT, (b * x + d * y + f) * POINT) for x, y in points])
    return found


def check_names(pdf, names):
    """The words at the places of a template, how often each: every time whole and inside the frame of
    its page, for what is cut off there would not be read."""
    found = {name: 0 for name in names}
    for number, page in enumerate(contents(pdf), start=1):
        left, _, right, _ = frame_of(page)
        lines = told("pdftotext", "-bbox-layout", "-f", number, "-l", number, pdf, "-")
        for box, line in re.findall(r'<line xMin="(\S+)" yMin="\S+" xMax="\S+" yMax="\S+">(.*?)</line>', lines, re.S):
            words = re.findall(r'<word xMin="(\S+)" yMin="\S+" xMax="(\S+)" yMax="\S+">(.*?)</word>', line)
            text = html.unescape(" ".join(word for _, _, word in words))
            for name in names:
                if name in text:
                    found[name] += text.count(name)
                    edges = float(words[0][0]) * POINT, float(words[-1][1]) * POINT
                    assert left < edges[0] and edges[1] < right, f"{pdf}: {text} is cut off on page {number}"
    assert found == names, f"{pdf}: {found}"


def centre_line(page):
    [line] = [path for path in paths(page, colour=CENTRE_LINE) if len(path) > 1]
    return line


def length(points, inside=None):
    total = 0.0
    for p, q in zip(points, points[1:]):
        part = clipped(p, q, inside) if inside else (0.0, 1.0)
        if part:
            total += math.dist(p, q) * (part[1] - part[0])
    return total


def clipped(p, q, inside):
    low, high = 0.0, 1.0
    for axis in (0, 1):
        way = q[axis] - p[axis]
        near, far = inside[axis] - p[axis], inside[axis + 2] - p[axis]
        if way == 0.0:
            if near > 0.0 or far < 0.0:
                return None
            continue
        near, far = sorted((near / way, far / way))
        low, high = max(low, near), min(high, far)
    return (low, high) if low < high else None


def frame_of(page):
    """The part of the paper on which the drawing shows: the one clip of the page."""
    [clip] = re.findall(rf"((?:{NUMBER} {NUMBER} [ml]\s)+)h\s+W\s+n\s", page)
    points = [tuple(float(n) * POINT for n in step.split()[:2]) for step in re.findall(rf"{NUMBER} {NUMBER} [ml]", clip)]
    xs, ys = zip(*points)
    return min(xs), min(ys), max(xs), max(ys)


def bars_of(page):
    """The scale bars: a line with 11 ticks (100 mm) or 17 (4 in) in one path; its first two points are the line."""
    bars = {24: 100.0, 36: 101.6}
    return [(math.dist(path[0], path[1]), bars[len(path)]) for path in paths(page, width_mm=0.2) if len(path) in bars]


def check_bars(page, where):
    bars = bars_of(page)
    assert len(bars) == 2, f"{where}: a bar across and a bar down"
    for bar, wanted in bars:
        assert abs(bar - wanted) < 0.01, f"{where}: a bar of {bar} mm"


def straight_bay():
    end = {"along": 21, "across": 0, "angle_deg": 0, "socket": 24}
    size = {"dash": 6, "bore": 8, "outside": 12.7, "bend_radius": 90, "max_pressure_bar": 100}
    hose = {"id": "plain", "name": "Plain", "construction": "ptfe-braid", "sizes": [size]}
    run = {"id": "straight", "name": "Straight", "hose": "plain", "dash": 6,
           "from": {"port": "a", **end}, "to": {"port": "b", **end}}
    # From seat to seat 742 mm on a slope that shows short in every view.
    x, y, z = (742.0 * part / 7.0 for part in (2.0, 3.0, 6.0))
    ports = [{"id": "a", "name": "A", "at": [10, 20, 30], "toward": [2, 3, 6]},
             {"id": "b", "name": "B", "at": [10 + x, 20 + y, 30 + z], "toward": [-2, -3, -6]}]
    return {"format": "hosewright-bay", "version": 1, "title": "Straight", "show_units": "mm", "ports": ports,
            "obstacles": [], "stock": {"hoses": [hose]}, "routings": [{"id": "o", "name": "O", "runs": [run]}]}


def check_straight(room):
    bay = room / "straight.bay.json"
    bay.write_text(json.dumps(straight_bay()))
    for paper in PAPERS:
        pdf = room / f"straight-{paper}.pdf"
        write("template", bay, "straight", "--out", pdf, "--paper", paper)
        words = " ".join(check_pages(pdf, paper).split())
        assert "every length here is true" in words and "700 mm of hose" in words, words[:400]
        assert "DO NOT CUT YET" not in words, "nothing is wrong with it"
        check_names(pdf, {"A, cut end": 1, "B, cut end": 1, "seat A, A: set-back 21 mm": 1,
                          "seat B, B: set-back 21 mm": 1, "mouth of socket A, 24 mm from cut end A": 1,
                          "mouth of socket B, 24 mm from cut end B": 1})
        shown, count = 0.0, pages_of(pdf)
        assert count >= 3, "over several pages"
        for page in contents(pdf):
            check_bars(page, pdf)
            line = centre_line(page)
            assert abs(length(line) - 700.0) < 0.01, f"drawn {length(line)} mm"
            # Along one axis of the paper: what two pages share of it is the overlap itself.
            assert min(abs(line[0][axis] - line[-1][axis]) for axis in (0, 1)) < 0.01, "upright"
            shown += length(line, frame_of(page))
        joined = shown - (count - 1) * OVERLAP
        assert abs(joined - 700.0) < 0.05, f"{joined} mm over {count} pages, taken together"
        print(f"a straight run of 700 mm measures {joined:.3f} mm over {count} pages of {paper}")


def check_flat(room, report):
    """A flat route of a demo bay, bent: its line on paper is as long as it is."""
    run = next(run for run in report["runs"] if run["id"] == "lift")
    pdf = room / "lift.pdf"
    write("template", faulty, "lift", "--routing", report["routing"], "--out", pdf)
    for page in contents(pdf):
        check_bars(page, pdf)
        line = centre_line(page)
        assert abs(length(line) - run["centreline_mm"]) < 0.2, f"{length(line)} of {run['centreline_mm']}"


def check_wire(room, report):
    """A route in space: its bend table, and a strip that is as long in the file as the table says."""
    run = next(run for run in report["runs"] if run["id"] == "feed")
    pdf, table = room / "feed.pdf", room / "feed.csv"
    write("template", faulty, "feed", "--routing", report["routing"], "--out", pdf)
    write("template", faulty, "feed", "--routing", report["routing"], "--out", table)
    rows = list(csv.DictReader(table.open(newline="")))
    words = check_pages(pdf, "letter")
    one_line = " ".join(words.split())
    fails = any(f["severity"] == "fail" and f["run"] == run["id"] for f in report["findings"])
    assert words.count("DO NOT CUT YET") == (pages_of(pdf) if fails else 0), "a fault is told on every page"
    assert one_line.count("not tested") == pages_of(pdf)
    assert one_line.count("Bend table for a wire") >= 1 and "Rounded to" in one_line and "clockwise" in one_line
    bends = rows[:-1]
    for row in bends:
        assert f"bend {row['bend']}" in one_line, row
        assert one_line.count(f"bend {row['bend']} from") == 1, row
    for end in ("A, cut end", "B, cut end"):
        assert one_line.count(end) == 1, end
    # The pages of the table show no drawing through a frame.
    strip = [page for page in contents(pdf) if re.search(r"h\s+W\s+n\s", page)]
    assert 0 < len(strip) < pages_of(pdf)
    shown, count = 0.0, len(strip)
    for page in strip:
        check_bars(page, pdf)
        shown += length(centre_line(page), frame_of(page))
    wanted = float(rows[-1]["ends_at_mm"])
    joined = shown - (count - 1) * OVERLAP
    assert abs(joined - wanted) < 0.05, f"the strip measures {joined} of {wanted} mm"
    assert abs(wanted - run["centreline_mm"]) < 2.0, (wanted, run["centreline_mm"])
    return fails


def check_scripts(room):
    """Names in many scripts come back; those that the fonts lack, and far too long ones, do no harm."""
    bay = json.loads(faulty.read_text())
    readable = ["Żółć přívod", "Подача топлива", "Ψύξη λαδιού", "Rücklauf Ø 8 → ⅜″"]
    awkward = ["燃料ホース 🚗", "خرطوم الوقود", "נ" * 40, "e\u0301\u200d", "wide " * 80, "W" * 400, ""]
    for routing in bay["routings"]:
        for run, name in zip(routing["runs"], readable + awkward):
            run["name"] = name
    for i, port in enumerate(bay["ports"]):
        port["name"] = (awkward + readable)[i % 11]
    for i, obstacle in enumerate(bay["obstacles"]):
        obstacle["name"] = (awkward + readable)[i % 11]
    bay["title"], bay["notes"] = "W" * 300, "\n".join(awkward + readable) + "\n" + "note " * 3000
    bay["routings"][0]["name"] = "Ж" * 200
    path = room / "scripts.bay.json"
    path.write_text(json.dumps(bay))
    for paper in PAPERS:
        sheet, labels = room / f"scripts-{paper}.pdf", room / f"scripts-labels-{paper}.pdf"
        write("sheet", path, "--out", sheet, "--paper", paper)
        write("labels", path, "--out", labels, "--paper", paper)
        for pdf in (sheet, labels):
            words = check_pages(pdf, paper)
            for name in readable:
                assert squeezed(name) in squeezed(words), f"{pdf}: {name}"
    write("template", path, bay["routings"][0]["runs"][5]["id"], "--out", room / "scripts-template.pdf")
    check_pages(room / "scripts-template.pdf", "letter")


def check_sheet_is_close(pdf, hoses):
    """One page a hose of which nothing is to be said, two at most of any, and no page that a line or two stand on alone."""
    words = told("pdftotext", "-layout", pdf, "-").split("\f")[:-1]
    boxes = told("pdftotext", "-bbox", pdf, "-").split("<page ")[1:]
    pages = {}
    for page, text in zip(boxes, words):
        hose = re.search(r"hose (\d+) of", text)
        if hose:
            feet = [float(foot) * POINT for foot in re.findall(r'yMax="(\S+)">', page)]
            # Without the page's own foot.
            pages.setdefault(int(hose.group(1)), []).append(max(foot for foot in feet if foot < max(feet) - 4))
    assert len(pages) == len(hoses), f"{pdf}: {pages}"
    for number, hose in enumerate(hoses, start=1):
        feet = pages[number]
        # A warning takes room above the cut length: what has no room then goes on.
        most = 2 if any(one["severity"] != "note" for one in hose["findings"]) else 1
        assert len(feet) <= most and min(feet) > 40.0, f"{pdf}: hose {number} ends at {feet} mm of its pages"
    if not any(hose["do_not_cut"] for hose in hoses):
        assert len(words) <= len(hoses) + 2 + sum(len(p) - 1 for p in pages.values()), f"{pdf}: {len(words)} pages"


def check_compared(stem):
    comparison = json.loads((folder / f"{stem}.compare.json").read_text())
    for paper in PAPERS:
        pdf = folder / f"{stem}.compare.{paper}.pdf"
        words = squeezed(check_pages(pdf, paper))
        needed = [comparison["sentence"], *comparison["remarks"]]
        needed += [value[key] for row in comparison["figures"] for value in row["values"] for key in ("text", "detail", "better")]
        needed += [run["name"] for run in comparison["runs"]] + [routing["name"] for routing in comparison["routings"]]
        for text in filter(None, needed):
            assert squeezed(text) in words, f"{pdf}: {text}"
        assert "HosebyHose" in words or "Hosebyhose" in words, pdf
    return len(comparison["figures"])


def check_demo(report_file):
    stem, report = report_file.stem, json.loads(report_file.read_text())
    hoses = json.loads((folder / f"{stem}.sheet.json").read_text())["hoses"]
    flows = [fact for hose in hoses for fact in hose["flow"]]
    assert flows, f"{stem}: what flows take is told"
    for paper in PAPERS:
        sheet = folder / f"{stem}.sheet.{paper}.pdf"
        labels = folder / f"{stem}.labels.{paper}.pdf"
        for pdf in (sheet, labels):
            words = " ".join(check_pages(pdf, paper).split())
            if pdf == sheet:
                check_sheet_is_close(pdf, hoses)
            for run in report["runs"]:
                for needed in (run["name"], f"{run['bench_inch']} in", f"{run['bench_mm']} mm"):
                    assert needed in words, f"{pdf}: {needed} of {run['id']}"
            for fact in flows if pdf == sheet else []:
                # Cells of a table are read line by line: every word of it is there.
                for needed in (fact["value"] + " " + fact["remark"]).split():
                    assert needed.strip(";") in words, f"{pdf}: {needed} of {fact}"
            for run in report["runs"]:
                if pdf == labels:
                    assert re.search(rf"\b{re.escape(run['id'])} ·", words), f"{pdf}: {run['id']}"
            for hose in hoses if pdf == labels else []:
                # A pressure is never cut off.
                for needed in ("rated to " + hose["finished"]["rating"], hose["finished"]["proof"]):
                    assert squeezed(needed) in squeezed(words), f"{pdf}: {needed} of {hose['id']}"
            if pdf == sheet:
                assert words.count("Swivel nut on its port, at installation") == len(hoses), pdf
    return report


with tempfile.TemporaryDirectory() as name:
    room = pathlib.Path(name)
    others = (".sheet.", ".compare.")
    reports = [
        check_demo(path)
        for path in sorted(folder.glob("*.json"))
        if not any(word in path.name for word in others)
    ]
    assert len(reports) >= 6, "the routings of the demo bays were read"
    figures = [check_compared(path.name.removesuffix(".compare.json")) for path in sorted(folder.glob("*.compare.json"))]
    assert len(figures) >= 3 and all(figures), "the comparisons were read"
    check_straight(room)
    title = json.loads(faulty.read_text())["title"]
    car = [report for report in reports if report["title"] == title]
    check_flat(room, next(report for report in car if report["routing"] == "low"))
    faults = [check_wire(room, report) for report in car]
    assert sorted(faults) == [False, True], "with a fault and without"
    check_scripts(room)
print(f"sheets and labels of {len(reports)} routings read back from PDF, templates measured")
