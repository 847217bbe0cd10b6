//! Nothing is lost between a bay and its file.

use std::collections::BTreeMap;

use hosewright::document::file::{faults_of, load, read, save, write};
use hosewright::model::unknown_keys;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

use crate::bays::{any_bay, census};
use crate::hostile::NoMeshes;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn a_bay_comes_back_from_its_file(bay in any_bay()) {
        let text = write(&bay).unwrap();
        let again = read(text.as_bytes(), &NoMeshes).map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert_eq!(&again, &bay);
        prop_assert_eq!(write(&again).unwrap(), text);
        prop_assert_eq!(faults_of(&bay), []);
    }

    #[test]
    fn line_ends_and_a_byte_order_mark_make_no_difference(bay in any_bay()) {
        let text = format!("\u{feff}{}", write(&bay).unwrap().replace('\n', "\r\n"));
        prop_assert_eq!(read(text.as_bytes(), &NoMeshes).unwrap(), bay);
    }

    /// The file holds what any other JSON reader would find in it.
    #[test]
    fn the_file_is_json_that_others_read(bay in any_bay()) {
        let text = write(&bay).unwrap();
        let value: serde_json::Value = serde_json::from_str(&text).unwrap();
        prop_assert_eq!(value["routings"].as_array().unwrap().len(), bay.routings.len());
        for (port, found) in bay.ports.iter().zip(value["ports"].as_array().unwrap()) {
            prop_assert_eq!(found["id"].as_str().unwrap(), &port.id);
            prop_assert_eq!(found["at"][2].as_f64().unwrap(), port.at.z);
        }
    }

    #[test]
    fn every_number_comes_back_to_the_last_bit(x in -1e5_f64..1e5, y in any::<f32>()) {
        let y = f64::from(y);
        prop_assume!(y.abs() <= 1e5);
        let text = format!(
            r#"{{"format":"hosewright-bay","version":1,"ports":[{{"id":"a","at":[{x:e},{y:e},0],"toward":[0,0,1]}}],"routings":[{{"id":"o"}}]}}"#
        );
        let bay = read(text.as_bytes(), &NoMeshes).unwrap();
        prop_assert_eq!((bay.ports[0].at.x, bay.ports[0].at.y), (x, y));
        let again = read(write(&bay).unwrap().as_bytes(), &NoMeshes).unwrap();
        prop_assert_eq!(again.ports[0].at.x.to_bits(), x.to_bits());
        prop_assert_eq!(again.ports[0].at.y, y);
    }
}

#[test]
fn random_bays_have_every_feature() {
    let mut runner = TestRunner::deterministic();
    let mut total: BTreeMap<&str, usize> = BTreeMap::new();
    for _ in 0..100 {
        let bay = any_bay().new_tree(&mut runner).unwrap().current();
        for (thing, count) in census(&bay) {
            *total.entry(thing).or_default() += count;
        }
    }
    for (thing, count) in total {
        assert!(count > 10, "{thing}: only {count} in 100 bays");
    }
}

/// Every key that is known, and an unknown one in every object that can hold it.
pub(crate) const EVERY_KEY: &str = include_str!("every-key.bay.json");

#[test]
fn unknown_keys_survive_at_every_level() {
    let bay = read(EVERY_KEY.as_bytes(), &NoMeshes).unwrap();
    let keys = unknown_keys(&bay);
    assert_eq!(keys.len(), EVERY_KEY.matches("\"x-").count());
    let mut found = keys.clone();
    found.sort();
    found.dedup();
    assert_eq!(found.len(), keys.len(), "each at its own place");
    let text = write(&bay).unwrap();
    let again = read(text.as_bytes(), &NoMeshes).unwrap();
    assert_eq!(unknown_keys(&again), keys);
    assert_eq!(again, bay);
}

#[test]
fn a_file_that_was_written_is_not_changed_by_load_and_save() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    let bay = read(EVERY_KEY.as_bytes(), &NoMeshes).unwrap();
    save(&path, &bay).unwrap();
    let before = std::fs::read(&path).unwrap();
    save(&path, &load(&path).unwrap()).unwrap();
    assert_eq!(std::fs::read(&path).unwrap(), before);
    assert_eq!(String::from_utf8(before).unwrap(), EVERY_KEY, "it is in our own layout");
}

#[test]
fn the_order_of_unknown_keys_is_kept_at_every_depth() {
    let text = r#"{
  "format": "hosewright-bay",
  "version": 1,
  "show_units": "mm",
  "routings": [
    {
      "id": "o"
    }
  ],
  "z": {
    "y": 1,
    "b": {
      "x": null,
      "a": [1.5, 2]
    },
    "a": {}
  },
  "a": 18446744073709551615
}
"#;
    let bay = read(text.as_bytes(), &NoMeshes).unwrap();
    assert_eq!(write(&bay).unwrap(), text);
}

#[test]
fn a_bay_in_the_hand_is_held_to_the_same_rules() {
    let sound = read(EVERY_KEY.as_bytes(), &NoMeshes).unwrap();
    let pointer = |harm: &dyn Fn(&mut hosewright::model::Bay)| {
        let mut bay = sound.clone();
        harm(&mut bay);
        faults_of(&bay).first().map(|fault| fault.pointer.clone())
    };
    assert_eq!(pointer(&|_| ()), None);
    let told = |harm: &dyn Fn(&mut hosewright::model::Bay)| pointer(harm).unwrap_or_default();
    assert_eq!(told(&|bay| bay.routings.clear()), "/routings");
    assert_eq!(told(&|bay| bay.ports[1].id = "pump-out".to_owned()), "/ports/1/id");
    assert_eq!(told(&|bay| drop(bay.ports.remove(1))), "/routings/0/runs/0/to/port");
    assert_eq!(told(&|bay| bay.ports[0].at.z = f64::INFINITY), "/ports/0/at/2");
}

#[test]
fn a_number_that_is_not_finite_is_never_written() {
    let mut bay = read(EVERY_KEY.as_bytes(), &NoMeshes).unwrap();
    bay.ports[1].at.y = f64::NAN;
    let fault = write(&bay).unwrap_err();
    assert_eq!(fault.pointer, "/ports/1/at/1");
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    let told = save(&path, &bay).unwrap_err().to_string();
    assert!(told.contains("/ports/1/at/1: the number NaN cannot be saved"), "{told}");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0, "nothing is left behind");
}
