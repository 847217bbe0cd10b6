//! The tables of the things of a bay file, held against each other from outside: of a bay with every
//! key, each that is written is read, and each that is read is written.

use std::collections::BTreeMap;

use hosewright::document::file::{MeshSource, read, write};
use hosewright::model::{Bay, Mesh, unknown_keys};
use serde_json::Value;

use crate::round_trip::EVERY_KEY;

struct AnyMesh;

impl MeshSource for AnyMesh {
    fn mesh(&self, _file: &str) -> Result<Mesh, String> {
        Ok(Mesh::default())
    }
}

fn read_text(text: &str) -> Option<Bay> {
    read(text.as_bytes(), &AnyMesh).ok()
}

/// Every key, those of a mesh among them, for which [`EVERY_KEY`] has no file.
fn whole() -> Bay {
    let mesh = r#"{ "id": "m", "nature": "hot", "kind": "mesh", "file": "a.stl", "scale": 25.4, "at": [1, 2, 3] }"#;
    let text = EVERY_KEY.replace("\"obstacles\": [", &format!("\"obstacles\": [{mesh},"));
    read_text(&text).unwrap()
}

/// What each field of each struct, by name, holds in some place of the bay: `false` where it is
/// empty in all.
fn fields(bay: &Bay) -> BTreeMap<(String, String), bool> {
    let mut inside: Vec<String> = Vec::new();
    let mut found = BTreeMap::new();
    for line in format!("{bay:#?}").lines().map(str::trim) {
        let (field, value) = line.split_once(": ").unwrap_or(("", line));
        if !field.is_empty() && !field.starts_with('"') {
            let is_set = !["None,", "\"\",", "[],"].contains(&value);
            let thing = inside.last().unwrap().clone();
            *found.entry((thing, field.to_owned())).or_default() |= is_set;
        }
        if line.starts_with(['}', ')', ']']) {
            inside.pop();
        } else if let Some(opened) = value.strip_suffix(['{', '(', '[']) {
            inside.push(opened.trim().to_owned());
        }
    }
    found
}

#[test]
fn the_bay_with_every_key_leaves_no_field_of_the_model_empty() {
    let found = fields(&whole());
    assert!(found.len() > 120, "{}", found.len());
    // What no file of a bay holds: the words of a source, and what is in a mesh.
    let is_known = |thing: &str| ["Source", "Mesh"].contains(&thing);
    let is_empty =
        |((thing, _), is_set): &(&(String, String), &bool)| !**is_set && !is_known(thing);
    assert_eq!(found.iter().find(is_empty), None);
}

/// The pointers of all known keys below a value, by their way there: `/ports/*/dash`. A thing that
/// comes in kinds has a way for each.
fn known_keys(value: &Value, at: &str, way: &str, found: &mut BTreeMap<String, Vec<String>>) {
    match value {
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                let kind = item["kind"].as_str().unwrap_or("*");
                known_keys(item, &format!("{at}/{index}"), &format!("{way}/{kind}"), found);
            }
        }
        Value::Object(members) => {
            for (key, member) in members.iter().filter(|(key, _)| !key.starts_with("x-")) {
                // Both ends of a run are of one table.
                let (at, way) =
                    (format!("{at}/{key}"), format!("{way}/{key}").replace("/to/", "/from/"));
                found.entry(way.clone()).or_default().push(at.clone());
                known_keys(member, &at, &way, found);
            }
        }
        _ => {}
    }
}

/// The bay of this file without this key; none where it is refused.
fn without(file: &Value, pointer: &str) -> Option<Bay> {
    let (object, key) = pointer.rsplit_once('/').unwrap();
    let mut file = file.clone();
    let members = file.pointer_mut(object).and_then(Value::as_object_mut).unwrap();
    members.shift_remove(key).unwrap();
    read_text(&file.to_string())
}

#[test]
fn every_key_that_is_written_is_read_and_told_in_the_docs() {
    let bay = whole();
    let file: Value = serde_json::from_str(&write(&bay).unwrap()).unwrap();
    assert_eq!(read_text(&file.to_string()).unwrap(), bay);
    let unknown = unknown_keys(&bay);
    let is_own = |pointer: &&String| !pointer.contains("/x-") && *pointer != "/backgrounds/3";
    assert_eq!(unknown.iter().find(is_own), None, "a key that is written is not known on reading");

    let docs = include_str!("../../docs/bay-file.md");
    let mut ways = BTreeMap::new();
    known_keys(&file, "", "", &mut ways);
    ways.retain(|way, _| !way.starts_with("/backgrounds/x-ray"));
    assert!(ways.len() > 120, "{}", ways.len());
    for (way, pointers) in ways {
        let counts = |pointer: &String| without(&file, pointer).as_ref() != Some(&bay);
        assert!(pointers.iter().any(counts), "{way} makes no difference to the bay that is read");
        let key = way.rsplit('/').next().unwrap();
        let is_told = docs.contains(&format!("`{key}`")) || docs.contains(&format!("\"{key}\""));
        assert!(is_told, "{way} is not in the docs");
    }
}

/// The pointers of all objects below a value that this version knows.
fn objects(value: &Value, at: &str, found: &mut Vec<String>) {
    match value {
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                objects(item, &format!("{at}/{index}"), found);
            }
        }
        Value::Object(members) => {
            found.push(at.to_owned());
            for (key, member) in members.iter().filter(|(key, _)| !key.starts_with("x-")) {
                objects(member, &format!("{at}/{key}"), found);
            }
        }
        _ => {}
    }
}

#[test]
fn an_unknown_key_is_named_wherever_it_stands() {
    let file: Value = serde_json::from_str(&write(&whole()).unwrap()).unwrap();
    let mut found = Vec::new();
    objects(&file, "", &mut found);
    // A background of a kind that this version does not know is unknown as a whole.
    found.retain(|at| at != "/backgrounds/3");
    assert!(found.len() > 30, "{}", found.len());
    for at in found {
        let mut more = file.clone();
        more.pointer_mut(&at)
            .and_then(Value::as_object_mut)
            .unwrap()
            .insert("x-new".into(), 1.into());
        let named = unknown_keys(&read_text(&more.to_string()).expect("still a bay"));
        assert!(named.contains(&format!("{at}/x-new")), "{at}: {named:?}");
    }
}
