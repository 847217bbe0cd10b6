//! Where the file or the call is at fault: status 2, a message that helps, nothing on standard
//! output, nothing written.

use std::fs;

use crate::bench::Bench;

#[test]
fn a_file_that_is_not_there() {
    let bench = Bench::new();
    for args in [
        &["check", "none.bay.json"][..],
        &["check", "none.bay.json", "--json"],
        &["sheet", "none.bay.json", "--out", "a.html"],
    ] {
        let ended = bench.run(args);
        assert!(ended.is_refused().contains("none.bay.json"), "{ended:?}");
    }
    assert!(bench.names().is_empty());
}

#[test]
fn a_folder_for_a_file() {
    let bench = Bench::new();
    fs::create_dir(bench.path("bays")).unwrap();
    assert!(bench.run(&["check", "bays"]).is_refused().contains("folder"));
}

#[test]
fn a_broken_file_with_each_place_in_it() {
    let bench = Bench::with_changed_bay(|bay| {
        bay["ports"][0]["toward"] = serde_json::json!([0, 0, 0]);
        bay["routings"][0]["runs"][1]["slack_pct"] = (-1).into();
    });
    for args in [
        &["check", "my.bay.json"][..],
        &["check", "my.bay.json", "--json"],
        &["sheet", "my.bay.json", "--out", "a.html"],
    ] {
        let ended = bench.run(args);
        let message = ended.is_refused();
        assert!(message.contains("my.bay.json"), "{message}");
        for place in ["/ports/0/toward", "/routings/0/runs/1/slack_pct"] {
            assert!(message.contains(place), "{message}");
        }
    }
    assert_eq!(bench.names(), ["my.bay.json"]);
}

#[test]
fn a_file_that_is_no_json() {
    let bench = Bench::new();
    bench.put("my.bay.json", "{ \"format\": hosewright");
    assert!(bench.run(&["check", "my.bay.json"]).is_refused().contains("line 1"));
}

#[test]
fn a_routing_that_is_not_there_and_the_ones_that_are() {
    let bench = Bench::with_test_bay();
    for args in [
        &["check", "my.bay.json", "--routing", "beside"][..],
        &["check", "my.bay.json", "--routing", "beside", "--json"],
        &["sheet", "my.bay.json", "--routing", "beside", "--out", "a.csv"],
    ] {
        let ended = bench.run(args);
        let message = ended.is_refused();
        for word in ["beside", "over", "Over the cover", "under", "Under the rail"] {
            assert!(message.contains(word), "{word}: {message}");
        }
    }
    assert_eq!(bench.names(), ["my.bay.json"]);
}

#[test]
fn a_call_that_is_not_understood() {
    let bench = Bench::with_test_bay();
    for (args, word) in [
        (&["check", "my.bay.json", "--jsn"][..], "--jsn"),
        (&["check", "my.bay.json", "--routing"], "--routing"),
        (&["check", "my.bay.json", "another.bay.json"], "another.bay.json"),
        (&["check"], "FILE"),
        (&["sheet", "my.bay.json"], "--out"),
        (&["sheet", "my.bay.json", "--out"], "--out"),
        (&["open"], "FILE"),
        (&["measure", "my.bay.json"], "measure"),
        (&["--mm"], "--mm"),
        (&["help", "measure"], "measure"),
    ] {
        let ended = bench.run(args);
        assert!(ended.is_refused().contains(word), "{args:?}: {ended:?}");
    }
}

/// A sheet that cannot be written: what the message says.
fn refused_target(bench: &Bench, out: &str, words: &[&str]) {
    let before = bench.names();
    let ended = bench.run(&["sheet", "my.bay.json", "--out", out]);
    let message = ended.is_refused();
    for word in words {
        assert!(message.contains(word), "{out}: {message}");
    }
    assert_eq!(bench.names(), before, "{out}");
}

#[test]
fn a_format_that_is_not_written() {
    let bench = Bench::with_test_bay();
    for out in ["a.docx", "a", "html", ".html", "a.html.gz"] {
        refused_target(&bench, out, &[".pdf", ".html", ".csv", ".json"]);
    }
}

#[test]
fn a_target_that_would_lose_the_bay() {
    let bench = Bench::with_test_bay();
    fs::create_dir(bench.path("here")).unwrap();
    bench.put("plain.json", &bench.text("my.bay.json"));
    let before = bench.bytes("plain.json");
    for (bay, out) in [
        ("plain.json", "plain.json"),
        ("plain.json", "./plain.json"),
        ("plain.json", "here/../plain.json"),
        ("my.bay.json", "other.bay.json"),
    ] {
        bench.run(&["sheet", bay, "--out", out]).is_refused();
    }
    assert_eq!(bench.bytes("plain.json"), before);
    assert_eq!(bench.names(), ["here", "my.bay.json", "plain.json"]);
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_to_the_bay() {
    let bench = Bench::with_test_bay();
    let before = bench.bytes("my.bay.json");
    std::os::unix::fs::symlink("my.bay.json", bench.path("soft.json")).unwrap();
    fs::hard_link(bench.path("my.bay.json"), bench.path("hard.json")).unwrap();
    refused_target(&bench, "soft.json", &["the bay itself"]);
    refused_target(&bench, "hard.json", &["the bay itself"]);
    assert_eq!(bench.bytes("my.bay.json"), before);
}

#[test]
fn a_target_in_no_folder_or_that_is_one() {
    let bench = Bench::with_test_bay();
    refused_target(&bench, "none/a.html", &["folder"]);
    fs::create_dir(bench.path("sheets.html")).unwrap();
    refused_target(&bench, "sheets.html", &["folder"]);
    refused_target(&bench, "my.bay.json/a.html", &["folder"]);
}

#[test]
fn a_window_without_a_display() {
    let bench = Bench::with_test_bay();
    // A bay by itself is opened, as a desktop does it.
    for args in [&["open", "my.bay.json"][..], &["my.bay.json"], &[]] {
        let ended = bench.run(args);
        let message = ended.is_refused();
        assert!(message.contains("display"), "{message}");
        assert_eq!(message.lines().count(), 1, "{message}");
    }
}
