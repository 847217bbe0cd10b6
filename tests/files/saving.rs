//! The old file stays whole until the new one is.

use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::Path;

use hosewright::document::file::{LoadError, SaveError, load, replace, save};
use hosewright::model::{Bay, Routing};

fn bay(title: &str) -> Bay {
    let routings = vec![Routing { id: "o".to_owned(), ..Routing::default() }];
    Bay { title: title.to_owned(), routings, ..Bay::default() }
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn what_was_saved_is_loaded() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    save(&path, &bay("one")).unwrap();
    save(&path, &bay("two")).unwrap();
    assert_eq!(load(&path).unwrap(), bay("two"));
    assert_eq!(names(folder.path()), ["a.bay.json"]);
}

/// A disk that is full after some bytes.
fn full_disk(file: &mut dyn Write) -> io::Result<()> {
    file.write_all(b"{ \"format\": \"hosew")?;
    Err(ErrorKind::StorageFull.into())
}

#[test]
fn a_full_disk_leaves_the_old_file_whole() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    save(&path, &bay("old")).unwrap();
    let told = replace(&path, full_disk).unwrap_err().to_string();
    assert!(told.contains("free some space, or save elsewhere"), "{told}");
    assert!(told.contains(&path.display().to_string()), "{told}");
    assert_eq!(load(&path).unwrap(), bay("old"));
    assert_eq!(names(folder.path()), ["a.bay.json"], "nothing is left behind");
    replace(&folder.path().join("new.bay.json"), full_disk).unwrap_err();
    assert_eq!(names(folder.path()), ["a.bay.json"], "no half file under the new name");
}

#[test]
fn the_old_file_is_whole_at_every_moment_of_saving() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    save(&path, &bay("old")).unwrap();
    let half_way = |file: &mut dyn Write| {
        file.write_all(b"half")?;
        file.flush()?;
        // What a crash would leave: the old file, and a stray one that no one takes for a bay.
        assert_eq!(load(&path).unwrap(), bay("old"));
        let names = names(folder.path());
        assert_eq!(names.len(), 2);
        assert!(names[0].starts_with(".hosewright-"), "{names:?}");
        file.write_all(b" and half")
    };
    replace(&path, half_way).unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"half and half");
}

#[test]
fn a_stray_file_of_a_crash_is_not_in_the_way() {
    let folder = tempfile::tempdir().unwrap();
    let stray = folder.path().join(format!(".hosewright-{}-0.tmp", std::process::id()));
    fs::write(&stray, "stray").unwrap();
    let path = folder.path().join("a.bay.json");
    save(&path, &bay("new")).unwrap();
    assert_eq!(load(&path).unwrap(), bay("new"));
    assert_eq!(fs::read(&stray).unwrap(), b"stray", "it may be another's");
}

#[cfg(unix)]
#[test]
fn the_mode_of_the_old_file_is_kept() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    save(&path, &bay("old")).unwrap();
    for mode in [0o600, 0o664, 0o640] {
        fs::set_permissions(&path, fs::Permissions::from_mode(mode)).unwrap();
        save(&path, &bay("new")).unwrap();
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, mode);
    }
}

#[cfg(unix)]
#[test]
fn links_are_followed() {
    let folder = tempfile::tempdir().unwrap();
    let real = folder.path().join("real");
    fs::create_dir(&real).unwrap();
    let link = folder.path().join("link.bay.json");
    std::os::unix::fs::symlink("real/a.bay.json", &link).unwrap();
    for title in ["where nothing is yet", "again"] {
        save(&link, &bay(title)).unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(load(&real.join("a.bay.json")).unwrap(), bay(title));
    }
    let round = folder.path().join("round.bay.json");
    std::os::unix::fs::symlink("round.bay.json", &round).unwrap();
    assert!(matches!(save(&round, &bay("")), Err(SaveError::Disk { .. })));
}

#[test]
fn what_cannot_be_written_over_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    save(&path, &bay("old")).unwrap();
    let mut mode = fs::metadata(&path).unwrap().permissions();
    mode.set_readonly(true);
    fs::set_permissions(&path, mode).unwrap();
    assert!(matches!(save(&path, &bay("new")), Err(SaveError::ReadOnly { .. })));
    assert_eq!(load(&path).unwrap(), bay("old"));
    assert!(matches!(save(folder.path(), &bay("")), Err(SaveError::NotAFile { .. })));
    assert!(matches!(save(Path::new(""), &bay("")), Err(SaveError::NotAFile { .. })));
    let nowhere = folder.path().join("no/such/folder.bay.json");
    let told = save(&nowhere, &bay("")).unwrap_err().to_string();
    assert!(told.contains("there is no such folder"), "{told}");
}

#[test]
fn what_cannot_be_opened_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    let told = |path: &Path| load(path).unwrap_err().to_string();
    assert_eq!(told(&path), format!("cannot open {}: there is no such file", path.display()));
    assert!(told(folder.path()).ends_with("it is a folder; name the bay file in it"));
    fs::write(&path, "{}").unwrap();
    assert!(matches!(load(&path), Err(LoadError::Read { .. })));
    assert!(
        told(&path)
            .starts_with(&format!("cannot open {}:\n/format: found nothing", path.display()))
    );
}
