//! A real process that breaks off by a fault leaves its work, a report and a bad status behind.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use std::path::PathBuf;
use std::process::Command;
use std::sync::Arc;
use std::time::Duration;

use hosewright::app::recovery::Recovery;
use hosewright::document::file::{leftovers_of, load};

/// Says to the second process where to work.
const FOLDER: &str = "HOSEWRIGHT_TEST_PANIC_IN";
const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo_projects/trials-car.bay.json");

/// Only in the second process does this do anything: it panics.
#[test]
fn second_process() {
    let Some(folder) = std::env::var_os(FOLDER).map(PathBuf::from) else { return };
    let path = folder.join("car.bay.json");
    let mut bay = load(&path).unwrap();
    bay.title = "Half drawn".into();
    let recovery = Recovery::stored_in(folder.join("data"), Duration::from_hours(1));
    recovery.guard_against_panics();
    recovery.note(&Arc::new(bay), Some(path));
    panic!("the fault of this test");
}

#[test]
fn a_fault_leaves_the_work_a_report_and_a_bad_status() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.bay.json");
    std::fs::copy(DEMO, &path).unwrap();
    let own = std::env::current_exe().unwrap();
    let run = Command::new(own)
        .args(["--exact", "second_process", "--nocapture"])
        .env(FOLDER, folder.path())
        .output()
        .unwrap();
    assert!(!run.status.success());
    let told = String::from_utf8_lossy(&run.stderr);
    assert!(told.contains("The unsaved work is kept in"), "{told}");

    let left = leftovers_of(&path, &folder.path().join("data"));
    let [left] = left.as_slice() else { panic!("{left:?}") };
    assert_eq!(left.bay(Some(&path)).unwrap().title, "Half drawn");
    let report = left.note().unwrap().report.clone().unwrap();
    let report = std::fs::read_to_string(report).unwrap();
    assert!(report.contains("the fault of this test"), "{report}");
    assert!(report.contains(left.path.to_str().unwrap()), "{report}");
}
