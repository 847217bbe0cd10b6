//! What is printed: PDF sheets, labels and templates. `tests/read_back_pdf.py` reads them back.

use crate::bench::Bench;

const DAY: [&str; 2] = ["--date", "2026-01-31"];

/// The calls that write a PDF.
fn calls() -> [Vec<&'static str>; 3] {
    [
        [&["sheet", "my.bay.json", "--routing", "over"], &DAY[..]].concat(),
        vec!["labels", "my.bay.json", "--routing", "over"],
        [&["template", "my.bay.json", "feed", "--routing", "over"], &DAY[..]].concat(),
    ]
}

fn written(bench: &Bench, call: &[&str], more: &[&str]) -> Vec<u8> {
    let args = [call, &["--out", "a.pdf"], more].concat();
    let ended = bench.run(&args);
    ended.wrote("a.pdf");
    bench.bytes("a.pdf")
}

/// The sizes of the pages, mm, as the file gives them.
fn boxes(pdf: &[u8]) -> Vec<[f64; 2]> {
    let text = String::from_utf8_lossy(pdf);
    let boxes = text.split("/MediaBox[").skip(1).filter_map(|rest| rest.split(']').next());
    boxes
        .map(|words| {
            let points: Vec<f64> =
                words.split_whitespace().map(|word| word.parse().unwrap()).collect();
            assert_eq!((points.len(), points[0], points[1]), (4, 0.0, 0.0), "{words}");
            [points[2], points[3]].map(|point| point * 25.4 / 72.0)
        })
        .collect()
}

fn are_of(pages: &[[f64; 2]], wanted: [f64; 2]) -> bool {
    let is =
        |page: &[f64; 2]| page.iter().zip(wanted).all(|(mm, wanted)| (mm - wanted).abs() < 0.01);
    !pages.is_empty() && pages.iter().all(is)
}

#[test]
fn the_same_bay_and_day_give_the_same_bytes() {
    let bench = Bench::with_test_bay();
    for call in calls() {
        let first = written(&bench, &call, &[]);
        assert!(first.starts_with(b"%PDF-"), "{call:?}");
        assert!(first == written(&bench, &call, &[]), "{call:?}");
    }
}

#[test]
fn the_paper_that_was_asked_for() {
    let bench = Bench::with_test_bay();
    for call in calls() {
        for (paper, size) in [("a4", [210.0, 297.0]), ("letter", [215.9, 279.4])] {
            let found = boxes(&written(&bench, &call, &["--paper", paper]));
            assert!(are_of(&found, size), "{call:?}: {found:?}");
        }
        // A bay in inches.
        let usual = boxes(&written(&bench, &call, &[]));
        assert!(are_of(&usual, [215.9, 279.4]), "{call:?}: {usual:?}");
    }
}

#[test]
fn what_was_written_is_said_in_a_line() {
    let bench = Bench::with_test_bay();
    let hoses = 3;
    for (call, wanted) in
        calls().iter().zip(["hoses of routing A", "labels of routing A", "at full size"])
    {
        let ended = bench.run(&[call, &["--out", "a.pdf"][..]].concat());
        let told = ended.wrote("a.pdf");
        assert!(told.contains(wanted), "{told}");
        if !wanted.contains("full size") {
            assert!(told.starts_with(&hoses.to_string()), "{told}");
        }
    }
}

#[test]
fn a_template_of_a_hose_that_fails_says_so() {
    let bench = Bench::with_test_bay();
    let mut seen = [false; 2];
    for (routing, run) in
        [("over", "feed"), ("over", "return"), ("over", "oil"), ("under", "return")]
    {
        let check = bench.run(&["check", "my.bay.json", "--routing", routing, "--json"]);
        let check: serde_json::Value = serde_json::from_str(&check.out).unwrap();
        let findings = check["findings"].as_array().unwrap().iter();
        let fails: Vec<&str> = findings
            .filter(|finding| finding["severity"] == "fail" && finding["run"] == run)
            .map(|finding| finding["message"].as_str().unwrap())
            .collect();
        let args = ["template", "my.bay.json", run, "--routing", routing, "--out", "a.pdf"];
        let ended = bench.run(&args);
        let told = ended.wrote("a.pdf");
        assert_eq!(told.contains("do not cut yet"), !fails.is_empty(), "{run}: {told}");
        assert!(fails.is_empty() || fails.iter().any(|why| told.contains(why)), "{told}");
        seen[usize::from(fails.is_empty())] = true;
    }
    assert_eq!(seen, [true; 2], "hoses that fail and hoses that do not");
}

#[test]
fn a_name_that_is_no_pdf_is_refused() {
    let bench = Bench::with_test_bay();
    for out in ["a.html", "a", "my.bay.json"] {
        for call in &calls()[1..] {
            let ended = bench.run(&[call, &["--out", out][..]].concat());
            assert!(ended.is_refused().contains(out), "{ended:?}");
        }
    }
    assert_eq!(bench.names(), ["my.bay.json"]);
}

#[test]
fn a_hose_that_is_not_there_and_the_ones_that_are() {
    let bench = Bench::with_test_bay();
    let args = ["template", "my.bay.json", "fed", "--routing", "over", "--out", "a.pdf"];
    let ended = bench.run(&args);
    let message = ended.is_refused();
    for word in ["fed", "feed", "return", "oil"] {
        assert!(message.contains(word), "{message}");
    }
    assert_eq!(bench.names(), ["my.bay.json"]);
}

#[test]
fn a_bay_without_hoses_has_a_page_all_the_same() {
    let bench = Bench::with_changed_bay(|bay| bay["routings"][0]["runs"] = serde_json::json!([]));
    for call in &calls()[..2] {
        assert_eq!(boxes(&written(&bench, call, &[])).len(), 1, "{call:?}");
    }
}

#[test]
fn a_bend_table_is_written_as_csv() {
    let bench = Bench::with_test_bay();
    let args = ["template", "my.bay.json", "feed", "--routing", "over", "--out", "feed.csv"];
    let ended = bench.run(&args);
    let told = ended.wrote("feed.csv");
    assert!(told.contains("bend table of "), "{told}");
    let text = String::from_utf8(bench.bytes("feed.csv")).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    assert!(
        lines[0].starts_with("hose_id,bend,straight_mm,turn_deg,bend_deg,radius_mm,starts_at_mm")
    );
    assert!(lines.len() > 3 && lines[1].starts_with("feed,1,"), "{text}");
    assert!(lines.iter().all(|line| line.split(',').count() == 11), "{text}");
}
