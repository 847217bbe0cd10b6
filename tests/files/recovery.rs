//! The recovery copy: nothing of a bay is lost in it, and windows do not harm each other's.

use std::path::Path;

use hosewright::document::file::{
    Keeper, Note, compose, leftovers_of, leftovers_without_file, parse, read, save, write,
};
use hosewright::model::Bay;
use proptest::prelude::*;

use crate::bays::any_bay;
use crate::hostile::NoMeshes;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn a_bay_comes_back_from_its_copy(bay in any_bay(), at in any::<u64>(), of in proptest::option::of(".{1,20}")) {
        let note = Note::new(of.map(Into::into), at);
        let bytes = compose(&note, &bay).unwrap();
        let (again, text) = parse(&bytes).unwrap();
        prop_assert_eq!(again, note);
        let file = write(&bay).unwrap();
        prop_assert_eq!(text, file.as_bytes(), "below the note it is a bay file");
        prop_assert_eq!(read(text, &NoMeshes).unwrap(), bay);
    }

    #[test]
    fn no_bytes_are_too_odd_to_be_refused(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        prop_assert!(parse(&bytes).is_err());
    }
}

fn bay(title: &str) -> Bay {
    let text = r#"{ "format": "hosewright-bay", "version": 1, "routings": [ { "id": "a", "runs": [] } ] }"#;
    Bay { title: title.to_owned(), ..read(text.as_bytes(), &NoMeshes).unwrap() }
}

fn titles(of: &Path, folder: &Path) -> Vec<String> {
    leftovers_of(of, folder).iter().map(|left| left.bay(Some(of)).unwrap().title).collect()
}

#[test]
fn a_copy_lies_beside_the_file_and_does_not_touch_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.bay.json");
    save(&path, &bay("saved")).unwrap();
    let before = std::fs::read(&path).unwrap();
    let mut keeper = Keeper::new(folder.path().join("data"));
    for (at, title) in [(1, "one"), (2, "two")] {
        keeper.keep(&Note::new(Some(path.clone()), at), &bay(title)).unwrap();
    }
    assert_eq!(std::fs::read(&path).unwrap(), before);
    let copy = keeper.path().unwrap().to_owned();
    let name = copy.file_name().unwrap().to_str().unwrap();
    assert!(name.starts_with(".car.bay.json.") && name.ends_with(".recover"), "{name}");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2, "one copy, no scraps");
    assert!(titles(&path, folder.path()).is_empty(), "its window lives");
    drop(keeper);
    assert_eq!(titles(&path, folder.path()), ["two"], "and now it does not");
}

#[test]
fn two_windows_on_one_file_keep_a_copy_each() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.bay.json");
    let [mut first, mut second] = [(); 2].map(|()| Keeper::new(folder.path().join("data")));
    first.keep(&Note::new(Some(path.clone()), 1), &bay("first")).unwrap();
    second.keep(&Note::new(Some(path.clone()), 2), &bay("second")).unwrap();
    assert_ne!(first.path(), second.path());
    second.forget();
    drop(first);
    assert_eq!(titles(&path, folder.path()), ["first"]);
    // A later process of the same number does not write over it either.
    let mut third = Keeper::new(folder.path().join("data"));
    third.keep(&Note::new(Some(path.clone()), 3), &bay("third")).unwrap();
    drop(third);
    assert_eq!(titles(&path, folder.path()), ["third", "first"], "newest first");
}

#[test]
fn a_bay_without_a_file_or_in_a_folder_that_is_not_there_is_kept_too() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("deep").join("data");
    let mut nameless = Keeper::new(data.clone());
    nameless.keep(&Note::new(None, 1), &bay("nameless")).unwrap();
    let gone = folder.path().join("gone").join("car.bay.json");
    let mut elsewhere = Keeper::new(data.clone());
    elsewhere.keep(&Note::new(Some(gone.clone()), 2), &bay("elsewhere")).unwrap();
    drop((nameless, elsewhere));
    assert_eq!(titles(&gone, &data), ["elsewhere"]);
    let all = leftovers_without_file(&data);
    assert_eq!(all.len(), 2);
    assert_eq!(all[1].note().unwrap().of, None);
    all[1].throw_away().unwrap();
    assert_eq!(leftovers_without_file(&data).len(), 1);
}

#[test]
fn saving_under_another_name_takes_the_copy_along() {
    let folder = tempfile::tempdir().unwrap();
    let [old, new] = ["old.bay.json", "new.bay.json"].map(|name| folder.path().join(name));
    let mut keeper = Keeper::new(folder.path().join("data"));
    keeper.keep(&Note::new(Some(old.clone()), 1), &bay("a")).unwrap();
    keeper.keep(&Note::new(Some(new.clone()), 2), &bay("b")).unwrap();
    drop(keeper);
    assert!(titles(&old, folder.path()).is_empty());
    assert_eq!(titles(&new, folder.path()), ["b"]);
}

#[cfg(unix)]
#[test]
fn a_copy_of_a_private_bay_is_private() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.bay.json");
    save(&path, &bay("mine")).unwrap();
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o600)).unwrap();
    let mut keeper = Keeper::new(folder.path().join("data"));
    keeper.keep(&Note::new(Some(path), 1), &bay("mine")).unwrap();
    let mode = std::fs::metadata(keeper.path().unwrap()).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o600);
}

#[test]
fn a_damaged_copy_is_found_and_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.bay.json");
    for (name, text) in [
        (".car.bay.json.1.recover", "cut sho"),
        (".car.bay.json.2.recover", "{\"format\":\"x\",\"of\":null,\"at\":1,\"report\":null}\n"),
        // Not ours.
        (".car.bay.json.old.recover", "mine"),
        (".van.bay.json.3.recover", "mine"),
    ] {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let left = leftovers_of(&path, folder.path());
    assert_eq!(left.len(), 2);
    assert!(left[0].note().unwrap_err().to_string().contains("cut short"));
    assert!(left[1].note().unwrap_err().to_string().contains("not a recovery copy"));
}
