//! Files made to break the reader: none may crash it, fill the memory, or take for ever.

use hosewright::document::file::{MeshSource, ReadError, read, write};
use hosewright::model::{Bay, Mesh};
use proptest::prelude::*;
use proptest::sample::Index;

use crate::bays::any_bay;

/// No file is beside these bays.
pub(crate) struct NoMeshes;

impl MeshSource for NoMeshes {
    fn mesh(&self, _file: &str) -> Result<Mesh, String> {
        Err("there is no such file".to_owned())
    }
}

fn read_text(text: &str) -> Result<Bay, ReadError> {
    read(text.as_bytes(), &NoMeshes)
}

/// A bay with this member beside the others.
fn with_member(member: &str) -> String {
    format!(
        "{{\"format\":\"hosewright-bay\",\"version\":1,\"routings\":[{{\"id\":\"o\"}}],{member}}}"
    )
}

fn nested(open: &str, middle: &str, close: &str, levels: usize) -> String {
    with_member(&format!("\"x\":{}{middle}{}", open.repeat(levels), close.repeat(levels)))
}

#[test]
fn nesting_is_followed_down_to_a_limit_and_refused_below() {
    for (open, middle, close) in [("[", "", "]"), ("{\"a\":", "1", "}")] {
        let bay = read_text(&nested(open, middle, close, 100)).unwrap();
        let text = write(&bay).unwrap();
        assert_eq!(write(&read_text(&text).unwrap()).unwrap(), text);
        for levels in [128, 1_000_000] {
            let refused = read_text(&nested(open, middle, close, levels)).unwrap_err();
            let told = refused.to_string();
            assert!(told.contains("more than 127 lists and objects inside each other"), "{told}");
        }
    }
}

#[test]
fn what_was_read_at_the_limit_can_be_read_again() {
    let deepest = (100..128).rev().find(|levels| read_text(&nested("[", "", "]", *levels)).is_ok());
    let bay = read_text(&nested("[", "", "]", deepest.unwrap())).unwrap();
    assert_eq!(read_text(&write(&bay).unwrap()).unwrap(), bay);
}

#[test]
fn files_too_large_are_refused() {
    let many = with_member(&format!("\"x\":[{}0]", "0,".repeat(4_000_000)));
    let told = read_text(&many).unwrap_err().to_string();
    assert_eq!(told, "the file is too large for a bay: at most 4000000 values are read");
    let long = with_member(&format!("\"x\":\"{}\"", "x".repeat(64 << 20)));
    let told = read_text(&long).unwrap_err().to_string();
    assert_eq!(told, "the file is too large for a bay: at most 64 MiB are read");
}

#[test]
fn a_flood_of_faults_is_told_in_bounds() {
    let ports = "{\"id\":\"a\",\"at\":[0,0,0],\"toward\":[0,0,0]},".repeat(20_000);
    let refused = read_text(&with_member(&format!("\"ports\":[{ports}1]"))).unwrap_err();
    assert_eq!(refused.faults().len(), 20_000 + 19_999 + 1);
    let told = refused.to_string();
    assert_eq!(told.lines().count(), 201);
    assert!(told.ends_with("and 39800 more"), "{}", told.lines().last().unwrap());
}

#[test]
fn a_flood_of_keys_is_read_in_time() {
    let keys: Vec<String> = (0..200_000).map(|i| format!("\"k{i}\":{i},")).collect();
    let keys = keys.concat();
    let bay = read_text(&with_member(&format!("{keys}{keys}\"last\":0"))).unwrap_err();
    assert_eq!(bay.faults().len(), 200_000);
    let bay = read_text(&with_member(&format!("{keys}\"last\":0"))).unwrap();
    assert_eq!(bay.extra.len(), 200_001);
}

#[test]
fn every_prefix_of_a_file_is_refused() {
    let text = with_member("\"title\":\"Öl\",\"show_units\":\"inch\"");
    assert!(read_text(&text).is_ok());
    for end in 0..text.len() {
        assert!(read(&text.as_bytes()[..end], &NoMeshes).is_err(), "{end}");
    }
}

/// A change to the bytes of a file.
#[derive(Debug, Clone)]
enum Harm {
    Overwrite(Index, u8),
    Remove(Index, u8),
    Repeat(Index, u8),
    Insert(Index, &'static str),
}

fn any_harm() -> impl Strategy<Value = Harm> {
    let words = [
        "null",
        "-1",
        "1e999",
        "0",
        "NaN",
        "{}",
        "[]",
        "\"\"",
        "\"id\":",
        ",",
        "\\u0000",
        "\\ud800",
        "1e308",
        "-0",
        "0.5",
        "4294967296",
        "\"at\":",
        "true",
        "\u{feff}",
        "\u{10ffff}",
    ];
    let place = any::<Index>;
    prop_oneof![
        (place(), any::<u8>()).prop_map(|(at, byte)| Harm::Overwrite(at, byte)),
        (place(), 1..60_u8).prop_map(|(at, length)| Harm::Remove(at, length)),
        (place(), 1..60_u8).prop_map(|(at, length)| Harm::Repeat(at, length)),
        (place(), proptest::sample::select(words.to_vec()))
            .prop_map(|(at, word)| Harm::Insert(at, word)),
    ]
}

impl Harm {
    fn done_to(&self, bytes: &mut Vec<u8>) {
        let (Self::Overwrite(at, _)
        | Self::Remove(at, _)
        | Self::Repeat(at, _)
        | Self::Insert(at, _)) = self;
        let at = at.index(bytes.len() + 1);
        match self {
            Self::Overwrite(_, byte) => {
                if let Some(place) = bytes.get_mut(at) {
                    *place = *byte;
                }
            }
            Self::Remove(_, length) => {
                let end = (at + usize::from(*length)).min(bytes.len());
                bytes.drain(at..end);
            }
            Self::Repeat(_, length) => {
                let end = (at + usize::from(*length)).min(bytes.len());
                let part = bytes[at..end].to_vec();
                bytes.splice(at..at, part);
            }
            Self::Insert(_, word) => {
                bytes.splice(at..at, word.bytes());
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// Whatever is done to a file, it is either refused with words, or read and written again.
    #[test]
    fn harmed_files_are_refused_or_read(bay in any_bay(), harms in prop::collection::vec(any_harm(), 1..5)) {
        let mut bytes = write(&bay).unwrap().into_bytes();
        for harm in &harms {
            harm.done_to(&mut bytes);
        }
        match read(&bytes, &NoMeshes) {
            Ok(bay) => {
                let text = write(&bay).unwrap();
                let again = read_text(&text).unwrap();
                prop_assert_eq!(&again, &bay);
                prop_assert_eq!(write(&again).unwrap(), text);
            }
            Err(refused) => prop_assert!(!refused.to_string().is_empty()),
        }
    }

    /// Bytes that were never a bay.
    #[test]
    fn noise_is_refused(noise in prop::collection::vec(any::<u8>(), 0..200)) {
        prop_assert!(read(&noise, &NoMeshes).is_err());
    }

    /// JSON that was never a bay, in the place of any member.
    #[test]
    fn any_value_anywhere_is_refused_or_read(
        key in prop::sample::select(vec![
            "title", "notes", "show_units", "groups", "ports", "obstacles", "backgrounds", "stock", "x",
        ]),
        value in crate::bays::any_json(),
    ) {
        let text = with_member(&format!("\"{key}\":{value}"));
        match read_text(&text) {
            Ok(bay) => prop_assert_eq!(read_text(&write(&bay).unwrap()).unwrap(), bay),
            Err(refused) => {
                prop_assert!(!refused.faults().is_empty());
                for fault in refused.faults() {
                    prop_assert!(fault.pointer.starts_with(&format!("/{key}")), "{}", fault);
                }
            }
        }
    }
}
