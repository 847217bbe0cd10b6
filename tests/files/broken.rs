//! The corpus of broken files in `tests/broken`: each `NAME.bay.json` is refused, with the message
//! in `NAME.expected` to the letter. After a change of wording run this test with
//! `HOSEWRIGHT_BLESS=1`, and read the difference before it is committed.

use std::fs;
use std::path::{Path, PathBuf};

use hosewright::document::file::{LoadError, load};

fn corpus() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/broken");
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut files: Vec<PathBuf> =
        entries.filter(|path| path.to_string_lossy().ends_with(".bay.json")).collect();
    files.sort();
    files
}

/// Why this file is refused; `None` where it is not.
fn refusal(path: &Path) -> Option<String> {
    match load(path) {
        Ok(_) => None,
        Err(LoadError::Read { source, .. }) => Some(source.to_string()),
        Err(LoadError::Open { source, .. }) => panic!("{}: {source}", path.display()),
    }
}

#[test]
fn every_broken_file_is_refused_with_its_message() {
    let files = corpus();
    assert!(files.len() >= 140, "only {} broken files", files.len());
    let bless = std::env::var_os("HOSEWRIGHT_BLESS").is_some();
    let mut wrong = Vec::new();
    for file in files {
        let found = refusal(&file).unwrap_or_else(|| "not refused at all".to_owned());
        let expected_file = PathBuf::from(file.to_string_lossy().replace(".bay.json", ".expected"));
        if bless {
            fs::write(&expected_file, format!("{found}\n")).unwrap();
        }
        let expected = fs::read_to_string(&expected_file).unwrap_or_default();
        if expected.trim_end() != found || found == "not refused at all" {
            wrong.push(format!("{}\n  expected: {expected}\n  found: {found}", file.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_expected_message_has_its_file() {
    let files = corpus();
    for entry in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/broken")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "expected") {
            assert!(files.contains(&path.with_extension("bay.json")), "{}", path.display());
        }
    }
}

#[test]
fn faults_are_data_too() {
    let file = corpus().into_iter().find(|f| f.to_string_lossy().contains("faults-everywhere"));
    let Err(LoadError::Read { source, .. }) = load(&file.unwrap()) else { panic!("not refused") };
    let pointers: Vec<&str> = source.faults().iter().map(|fault| fault.pointer.as_str()).collect();
    let expected = [
        "/ports/0/toward",
        "/ports/1/dash",
        "/stock/hoses/0/sizes/0/bore",
        "/routings/0/runs/0/from/port",
        "/routings/0/runs/0/to/straight",
        "/routings/0/runs/0/slack_pct",
        "/routings/0/hose_clearance",
        "/title",
        "/groups/0/moves/0/axis",
        "/obstacles/0/min/0",
        "/obstacles/1/radius",
    ];
    assert_eq!(pointers, expected, "in the order of the file");
    let port = &source.faults()[3];
    assert_eq!(port.found, "\"z\"");
    assert_eq!(port.expected, "the id of a port (\"a\", \"b\")");
}
