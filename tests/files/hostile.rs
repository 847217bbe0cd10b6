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

/// What is said of a bay with this port beside a sound one.
fn refused_member(member: &str) -> String {
    read_text(&with_member(member)).unwrap_err().to_string()
}

#[test]
fn control_characters_and_text_direction_marks_are_refused_in_names_ids_and_titles() {
    let port = |id: &str, name: &str| {
        format!(
            "\"ports\":[{{\"id\":\"{id}\",\"name\":\"{name}\",\"at\":[0,0,0],\"toward\":[1,0,0]}}]"
        )
    };
    for mark in [
        "u0000", "u0007", "u0009", "u000a", "u000d", "u001b", "u007f", "u0085", "u009b", "u061c",
        "u200e", "u200f", "u2028", "u202a", "u202e", "u2066", "u2069",
    ] {
        let odd = format!("a\\{mark}b");
        for (place, member) in [
            ("/title", format!("\"title\":\"{odd}\"")),
            ("/ports/0/id", port(&odd, "fine")),
            ("/ports/0/name", port("fine", &odd)),
        ] {
            let told = refused_member(&member);
            assert!(told.starts_with(&format!("{place}: found \"a")), "{told}");
            assert!(told.contains("without control characters and text-direction marks"), "{told}");
            assert!(told.contains(&format!("U+{}", mark[1..].to_uppercase())), "{told}");
            assert!(told.chars().all(hosewright::units::is_plain), "{told:?}");
        }
    }
    let bay = read_text(&with_member("\"notes\":\"two\\r\\nlines\\tand a tab\"")).unwrap();
    assert_eq!(bay.notes, "two\r\nlines\tand a tab");
    assert!(refused_member("\"notes\":\"\\u001b[2J\"").starts_with("/notes: "));
}

#[test]
fn a_bay_has_a_size() {
    let far = "no more than 100000 millimetres (100 m)";
    for (place, member) in [
        ("/ports/0/at/1", "\"ports\":[{\"id\":\"a\",\"at\":[0,100001,0],\"toward\":[1,0,0]}]"),
        (
            "/obstacles/0/max/2",
            "\"obstacles\":[{\"id\":\"a\",\"kind\":\"box\",\"min\":[0,0,0],\"max\":[1,1,1e6]}]",
        ),
        (
            "/obstacles/0/radius",
            "\"obstacles\":[{\"id\":\"a\",\"kind\":\"sphere\",\"at\":[0,0,0],\"radius\":2e5}]",
        ),
        (
            "/groups/0/moves/0/to/0",
            "\"groups\":[{\"id\":\"a\",\"moves\":[{\"kind\":\"slide\",\"from\":[0,0,0],\"to\":[-2e5,0,0]}]}]",
        ),
        (
            "/backgrounds/0/origin/0",
            "\"backgrounds\":[{\"id\":\"a\",\"kind\":\"outline\",\"view\":\"plan\",\"file\":\"a.dxf\",\"scale\":1,\"origin\":[1e6,0]}]",
        ),
    ] {
        let told = refused_member(member);
        assert!(told.starts_with(place) && told.contains(far), "{told}");
    }
    let edge = "\"ports\":[{\"id\":\"a\",\"at\":[0,100000,-100000],\"toward\":[1,0,0]}]";
    assert!(read_text(&with_member(edge)).is_ok());
    // A reel may be longer than any bay.
    let reel = "\"stock\":{\"lengths\":[{\"hose\":\"ptfe-100r14\",\"dash\":6,\"length\":152400}]}";
    assert!(read_text(&with_member(reel)).is_ok());
}

#[test]
fn slack_above_a_hundred_per_cent_and_prices_below_nothing_are_refused() {
    let text = include_str!("../cli/bay.json");
    let slack = text.replacen("\"dry_fit_mm\"", "\"slack_pct\": 101, \"dry_fit_mm\"", 1);
    let told = read_text(&slack).unwrap_err().to_string();
    assert!(told.contains("slack_pct: found 101, expected a number from 0 to 100"), "{told}");
    let price = "\"stock\":{\"lengths\":[{\"hose\":\"ptfe-100r14\",\"dash\":6,\"length\":900,\"price\":-1}]}";
    let told = refused_member(price);
    assert!(
        told.starts_with("/stock/lengths/0/price: found -1, expected a number, 0 or more"),
        "{told}"
    );
}

#[test]
fn what_is_found_is_quoted_in_bounds() {
    let long = "y".repeat(1_000_000);
    for member in [
        format!("\"title\":[\"{long}\"]"),
        format!("\"show_units\":\"{long}\""),
        format!("\"ports\":[{{\"id\":\"a\",\"{long}\":{{\"b\":1,\"b\":1}}}}]"),
        format!("\"x\":1{}", "0".repeat(1_000_000)),
    ] {
        let told = refused_member(&member);
        assert!(told.lines().all(|line| line.chars().count() < 500), "{}", told.len());
    }
    let stl = format!("solid a\n{}\nendsolid\n", "z".repeat(2_000_000));
    let told = hosewright::document::file::mesh_from_stl(stl.as_bytes()).unwrap_err();
    assert!(told.chars().count() < 200, "{}", told.len());
}

/// One mesh file of so many triangles, however it is named.
struct Triangles(usize, std::cell::Cell<usize>);

impl MeshSource for Triangles {
    fn mesh(&self, _file: &str) -> Result<Mesh, String> {
        self.1.set(self.1.get() + 1);
        let corners = vec![glam::DVec3::ZERO, glam::DVec3::X, glam::DVec3::Y];
        Ok(Mesh::new(corners, vec![[0, 1, 2]; self.0]))
    }
}

#[test]
fn a_mesh_placed_thirty_times_is_read_once_and_there_is_a_limit_on_triangles() {
    let placed: Vec<String> = (0..30)
        .map(|k| {
            let scale = if k % 2 == 0 { "" } else { ",\"scale\":25.4" };
            format!(
                "{{\"id\":\"m{k}\",\"kind\":\"mesh\",\"file\":\"a.stl\",\"at\":[{k},0,0]{scale}}}"
            )
        })
        .collect();
    let text = with_member(&format!("\"obstacles\":[{}]", placed.join(",")));
    let meshes = Triangles(1000, std::cell::Cell::default());
    let bay = read(text.as_bytes(), &meshes).unwrap();
    assert_eq!(meshes.1.get(), 1);
    let mesh = |k: usize| match &bay.obstacles[k].shape {
        hosewright::model::Shape::Mesh { mesh, .. } => mesh.clone(),
        other => panic!("{other:?}"),
    };
    assert!((0..30).all(|k| mesh(k).shares(&mesh(k % 2))), "one copy for each scale");
    assert_eq!(mesh(7).vertex(0), Some(glam::DVec3::X * 7.0));

    let meshes = Triangles(100_000, std::cell::Cell::default());
    let told = read(text.as_bytes(), &meshes).unwrap_err().to_string();
    assert!(told.starts_with("/obstacles/20/file: found 2100000 triangles"), "{told}");
    assert!(told.contains("no more than 2000000 triangles"), "{told}");

    let far =
        "\"obstacles\":[{\"id\":\"m\",\"kind\":\"mesh\",\"file\":\"a.stl\",\"scale\":200000}]";
    let told = read(with_member(far).as_bytes(), &Triangles(1, std::cell::Cell::default()));
    let told = told.unwrap_err().to_string();
    assert!(told.contains("reaches to 200000 millimetres"), "{told}");
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
