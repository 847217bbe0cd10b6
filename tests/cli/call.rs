//! How a call ends: its status, the same bytes twice, a reader that has gone away.

use std::process::{Output, Stdio};

use crate::bench::{Bench, all_bays, demo_bays, ended};

#[test]
fn the_status_says_whether_something_failed() {
    let mut seen = [false; 2];
    let bench = Bench::new();
    for path in all_bays() {
        let bay = hosewright::document::file::load(&path).unwrap();
        let file = path.to_str().unwrap();
        for routing in &bay.routings {
            let solution = hosewright::engine::solve_whole(&bay, routing);
            let fails = hosewright::checks::check(&bay, routing, &solution)
                .iter()
                .any(|finding| finding.severity == hosewright::checks::Severity::Fail);
            seen[usize::from(fails)] = true;
            let status = i32::from(fails);
            let text = bench.run(&["check", file, "--routing", &routing.id]);
            assert_eq!(text.is_quiet(status).contains("\n  FAULT  "), fails, "{text:?}");
            bench.run(&["check", file, "--routing", &routing.id, "--json"]).is_quiet(status);
        }
    }
    assert_eq!(seen, [true, true], "the bays show both");
    assert!(bench.names().is_empty(), "checking writes nothing");
}

#[test]
fn without_a_routing_the_first_one_is_taken() {
    let bench = Bench::new();
    for path in demo_bays() {
        let bay = hosewright::document::file::load(&path).unwrap();
        let (file, first) = (path.to_str().unwrap(), bay.routings[0].id.as_str());
        let plain = bench.run(&["check", file, "--json"]);
        let asked = bench.run(&["check", file, "--json", "--routing", first]);
        assert_eq!((plain.status, plain.out), (asked.status, asked.out), "{file}");
    }
}

#[test]
fn the_same_bay_gives_the_same_bytes() {
    let bench = Bench::new();
    for path in all_bays() {
        let file = path.to_str().unwrap();
        for args in [
            &["check", file][..],
            &["check", file, "--json"],
            &["cutlist", file],
            &["cutlist", file, "--json"],
            &["compare", file],
            &["compare", file, "--json"],
        ] {
            assert_eq!(bench.run(args).out, bench.run(args).out, "{args:?}");
        }
        for ending in ["html", "csv", "json"] {
            let [one, two] = ["one", "two"].map(|name| {
                let out = format!("{name}.{ending}");
                let args = ["sheet", file, "--date", "2026-01-31", "--out", &out];
                assert_eq!(bench.run(&args).status, Some(0));
                bench.bytes(&out)
            });
            assert!(one == two, "{file} as {ending}");
        }
    }
}

/// Run with a standard output whose reader is gone before the program begins.
fn unread(bench: &Bench, args: &[&str]) -> Output {
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    bench.command(args).stdout(writer).stderr(Stdio::piped()).output().unwrap()
}

#[test]
fn a_reader_that_has_gone_away_is_no_fault() {
    let bench = Bench::with_test_bay();
    for (args, status) in [
        (&["check", "my.bay.json"][..], 1),
        (&["check", "my.bay.json", "--json"], 1),
        (&["check", "my.bay.json", "--routing", "under"], 0),
        (&["--help"], 0),
        (&["check", "--help"], 0),
        (&["--version"], 0),
    ] {
        ended(unread(&bench, args)).is_quiet(status);
    }
}

#[cfg(target_os = "linux")]
#[test]
fn an_output_that_is_full_is_told() {
    let bench = Bench::with_test_bay();
    for args in [&["check", "my.bay.json"][..], &["check", "my.bay.json", "--json"], &["--help"]] {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let output = bench.command(args).stdout(full).stderr(Stdio::piped()).output().unwrap();
        assert!(ended(output).is_refused().contains("standard output"), "{args:?}");
    }
}
