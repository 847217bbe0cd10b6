//! The findings that follow from lengths and radii, against `tests/reference/drawn.json` (an
//! independent reading of contract §2–4): each bend below its limit there, and no other, is found.
#![allow(clippy::unwrap_used, reason = "a helper that fails fails its test")]

use std::path::Path;

use hosewright::checks::{Finding, Severity, check};
use hosewright::document::file::{FolderMeshes, read};
use hosewright::engine::solve_routing;
use serde_json::Value;

const EPS_MM: f64 = 1e-6;

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap()
}

/// Place and radius of each bend that the reference has below the run's limit.
fn too_tight(expected: &Value) -> Vec<(f64, f64)> {
    let limit = number(expected, "radius_limit_mm");
    let bends = expected["bends"].as_array().unwrap();
    bends
        .iter()
        .map(|bend| (number(bend, "at_mm"), number(bend, "radius_mm")))
        .filter(|(_, radius)| *radius < limit - EPS_MM)
        .collect()
}

fn check_run(found: &[Finding], expected: &Value, place: &str) -> usize {
    let id = expected["id"].as_str().unwrap();
    let fails: Vec<_> = found
        .iter()
        .filter(|f| f.rule == "bend-radius" && f.severity == Severity::Fail)
        .filter(|f| f.run.as_deref() == Some(id))
        .collect();
    let bends = too_tight(expected);
    assert_eq!(fails.len(), bends.len(), "{place} {id}");
    for (fail, (at, radius)) in fails.iter().zip(&bends) {
        assert!((fail.at_mm.unwrap() - at).abs() <= EPS_MM, "{place} {id}: {fail:?}");
        assert!((fail.value.unwrap() - radius).abs() <= EPS_MM, "{place} {id}: {fail:?}");
        let limit = number(expected, "radius_limit_mm");
        assert!((fail.limit.unwrap() - limit).abs() <= EPS_MM, "{place} {id}: {fail:?}");
    }
    bends.len()
}

#[test]
fn every_bend_below_its_limit_and_no_other() {
    let file: Value = serde_json::from_str(include_str!("reference/drawn.json")).unwrap();
    let mut tight = 0;
    for case in file["cases"].as_array().unwrap() {
        let text = serde_json::to_vec(&case["bay"]).unwrap();
        let bay = read(&text, &FolderMeshes::beside(Path::new("reference.bay.json"))).unwrap();
        let routing = &bay.routings[0];
        let found = check(&bay, routing, &solve_routing(&bay, routing));
        for expected in case["expected"].as_array().unwrap() {
            tight += check_run(&found, expected, &bay.title);
        }
    }
    assert!(tight > 20, "the reference has tight bends: {tight}");
}
