//! Whole bay files against `tests/reference/drawn.json`: an independent reading of contract §2–4,
//! itself checked against thirty-digit fillets (6e-13 mm); clearances by dense sampling in numpy,
//! good to 0.02 mm. Read through the program's own reader.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use std::path::Path;

use hosewright::document::file::{FolderMeshes, read};
use hosewright::engine::clearance::TubeClearance;
use hosewright::engine::{RunSolution, solve};
use hosewright::model::Bay;
use serde_json::Value;

const LENGTH_MM: f64 = 1e-6;
const ANGLE_DEG: f64 = 1e-6;
/// The reference samples densely.
const GAP_MM: f64 = 0.02;

fn near(got: f64, expected: &Value, accuracy: f64, what: &str) {
    let expected = expected.as_f64().unwrap();
    assert!((got - expected).abs() <= accuracy, "{what}: {got} is not {expected}");
}

fn check_run(run: &RunSolution, expected: &Value, place: &str) {
    for (key, got) in [
        ("centreline_mm", run.centreline_mm),
        ("slack_mm", run.slack_mm),
        ("cut_length_mm", run.cut_length_mm),
        ("overall_mm", run.overall_mm),
        ("radius_limit_mm", run.radius_limit_mm),
    ] {
        near(got, &expected[key], LENGTH_MM, &format!("{place} {key}"));
    }
    match run.min_radius_mm {
        Some(got) => {
            near(got, &expected["min_radius_mm"], LENGTH_MM, &format!("{place} min radius"));
        }
        None => assert!(expected["min_radius_mm"].is_null(), "{place}: nothing bends"),
    }
    match run.clock_between_deg {
        Some(got) => {
            near(got, &expected["clock_between_deg"], ANGLE_DEG, &format!("{place} clock"));
        }
        None => assert!(expected["clock_between_deg"].is_null(), "{place}: no clock"),
    }
    let bends = expected["bends"].as_array().unwrap();
    assert_eq!(run.bends().len(), bends.len(), "{place}: bends");
    for (k, (bend, expected)) in run.bends().iter().zip(bends).enumerate() {
        let place = format!("{place} bend {k}");
        near(bend.at_mm, &expected["at_mm"], LENGTH_MM, &format!("{place} at"));
        near(bend.angle_deg, &expected["angle_deg"], ANGLE_DEG, &format!("{place} angle"));
        near(bend.radius_mm, &expected["radius_mm"], LENGTH_MM, &format!("{place} radius"));
        near(bend.wanted_mm, &expected["wanted_mm"], LENGTH_MM, &format!("{place} wanted"));
    }
}

fn check_clearance(bay: &Bay, clearance: &TubeClearance, expected: &Value, place: &str) {
    let tightest = clearance.tightest.unwrap();
    let expected = &expected["clearance"];
    assert_eq!(bay.obstacles[tightest.obstacle].id, expected["obstacle"], "{place}: obstacle");
    // A sampled minimum is never too small. Where the axis runs through an obstacle the depth has a
    // kink, which samples miss by up to their distance: there ours may be deeper, by no more than it
    // lies away from theirs, for no distance changes faster than the place.
    let above = expected["gap_mm"].as_f64().unwrap() - tightest.gap_mm;
    let apart = (expected["at_mm"].as_f64().unwrap() - tightest.at_mm).abs();
    assert!(above > -1e-6, "{place}: gap {} is too large by {}", tightest.gap_mm, -above);
    assert!(above <= GAP_MM.max(apart), "{place}: gap {} is too small", tightest.gap_mm);
    assert!(above <= GAP_MM || tightest.gap_mm < 0.0, "{place}: gap {}", tightest.gap_mm);
    near(
        tightest.min_clearance_mm,
        &expected["min_clearance_mm"],
        0.0,
        &format!("{place} minimum clearance"),
    );
    // The place of a flat minimum is anywhere along it; that of a sampled one is off by a root.
    near(tightest.at_mm, &expected["at_mm"], 2.0, &format!("{place} at"));
    let is_short = clearance.too_near.iter().any(|near| near.obstacle == tightest.obstacle);
    assert_eq!(is_short, tightest.gap_mm < tightest.min_clearance_mm, "{place}");
}

#[test]
fn every_figure_of_the_reference_bays() {
    let file: Value = serde_json::from_str(include_str!("reference/drawn.json")).unwrap();
    let mut runs = 0;
    for case in file["cases"].as_array().unwrap() {
        let text = serde_json::to_vec(&case["bay"]).unwrap();
        let bay = read(&text, &FolderMeshes::beside(Path::new("reference.bay.json"))).unwrap();
        let solution = solve(&bay);
        for (k, expected) in case["expected"].as_array().unwrap().iter().enumerate() {
            let place = format!("{} {}", bay.title, expected["id"]);
            check_run(solution.routings[0].run(k).unwrap(), expected, &place);
            check_clearance(&bay, &solution.routings[0].clearance.runs[k], expected, &place);
            runs += 1;
        }
    }
    assert_eq!(runs, 48);
}
