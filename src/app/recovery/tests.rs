use std::time::Duration;

use super::*;
use crate::document::file::{leftovers_without_file, write};
use crate::units::LengthUnit;

fn bay(title: &str) -> Arc<Bay> {
    Arc::new(Bay { title: title.into(), ..crate::app::filing::new_bay(LengthUnit::Mm) })
}

#[test]
fn what_is_kept_is_left_by_a_window_that_dies_and_gone_after_one_that_parts() {
    let folder = tempfile::tempdir().unwrap();
    let keep = |recovery: &mut Recovery| {
        recovery.keep(&bay("mine"), None);
        recovery.settle();
    };
    let mut parting = Recovery::stored_in(folder.path().to_owned(), Duration::ZERO);
    keep(&mut parting);
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    assert!(leftovers_without_file(folder.path()).is_empty(), "its window lives");
    parting.forget();
    drop(parting);
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);

    let mut dying = Recovery::stored_in(folder.path().to_owned(), Duration::ZERO);
    keep(&mut dying);
    drop(dying);
    let left = leftovers_without_file(folder.path());
    assert_eq!(left.len(), 1);
    assert_eq!(left[0].text(), write(&bay("mine")).unwrap().as_bytes());
}

#[test]
fn the_old_copy_goes_only_once_the_new_one_is_there() {
    let folder = tempfile::tempdir().unwrap();
    let old = folder.path().join("old");
    std::fs::write(&old, "x").unwrap();
    let blocked = folder.path().join("blocked");
    std::fs::write(&blocked, "a file in the place of a folder").unwrap();
    let mut recovery = Recovery::stored_in(blocked, Duration::ZERO);
    recovery.keep(&bay("mine"), None);
    recovery.order(Order::Replace(old.clone()));
    recovery.settle();
    assert!(old.exists());
    assert!(!recovery.troubles.try_recv().unwrap().is_empty(), "and it is said");
}
