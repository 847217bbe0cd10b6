//! Advice that is followed: lengths that are recommended, and changes that are told in hints, applied to
//! random bays and checked again.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::build::{bay, clamp, corner, port, run, straight_end};
use common::xorshift::Xorshift;
use glam::DVec3;
use std::sync::Arc;

use hosewright::checks::{Finding, Severity, check};
use hosewright::engine::lengths::{advise, with_cut_length};
use hosewright::engine::solve_whole;
use hosewright::model::{Bay, Motion, MovingGroup, Nature, Obstacle, Shape};
use hosewright::remedy;
use rayon::prelude::*;

const BAYS: u64 = 500;

/// What a cut length decides.
const OF_LENGTH: [&str; 6] = [
    "taut",
    "installed-radius",
    "installed-clearance",
    "motion-radius",
    "motion-reach",
    "motion-clearance",
];

/// A hose from port to port with up to three corners and clamps, past up to four obstacles, on an engine
/// that pivots or not; often with something wrong.
fn random_bay(seed: u64) -> Bay {
    let mut chance = Xorshift(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1);
    for _ in 0..8 {
        chance.below(2);
    }
    let mut within = |least: f64, most: f64| least + (most - least) * chance.share();
    let reach = within(250.0, 900.0);
    let end = DVec3::new(reach, within(-300.0, 300.0), within(-150.0, 150.0));
    let back = DVec3::new(-1.0, within(-0.8, 0.8), within(-0.5, 0.5));
    let mut via = Vec::new();
    let count = within(0.0, 3.99) as usize;
    for k in 1..=count {
        let share = k as f64 / (count + 1) as f64;
        let at = end * share + DVec3::new(0.0, within(-120.0, 120.0), within(-80.0, 80.0));
        if within(0.0, 1.0) < 0.35 {
            via.push(clamp(at, DVec3::new(1.0, within(-0.3, 0.3), within(-0.3, 0.3)), 10.0, None));
        } else {
            via.push(corner(at.x, at.y, at.z));
        }
    }
    let ports = vec![port("a", DVec3::ZERO, DVec3::X), port("b", end, back)];
    let mut hose = run(straight_end("a", None), straight_end("b", None), via);
    hose.slack_pct = Some(within(0.0, 12.0));
    hose.service.pressure_bar = (within(0.0, 1.0) < 0.6).then(|| within(-0.5, 60.0));
    let mut bay = bay(ports, hose);
    for k in 0..within(0.0, 4.99) as usize {
        let at =
            end * within(0.2, 0.8) + DVec3::new(0.0, within(-250.0, 250.0), within(-200.0, 200.0));
        bay.obstacles.push(Obstacle {
            id: format!("o{k}"),
            name: format!("Obstacle {k}"),
            nature: [Nature::Plain, Nature::Hot, Nature::Moving][within(0.0, 2.99) as usize],
            min_clearance_mm: Some(within(0.0, 30.0)),
            group: None,
            shape: Shape::Sphere { at, radius: within(20.0, 90.0) },
            locked: None,
            extra: vec![],
        });
    }
    if within(0.0, 1.0) < 0.4 {
        let moves = vec![Motion::Pivot {
            about: end + DVec3::new(0.0, 0.0, -200.0),
            axis: DVec3::X,
            from_deg: -3.0,
            to_deg: 3.0,
            extra: vec![],
        }];
        bay.groups.push(MovingGroup {
            id: "engine".into(),
            name: "Engine".into(),
            moves,
            extra: vec![],
        });
        bay.ports[1].group = Some("engine".into());
    }
    bay
}

fn findings(bay: &Bay) -> Vec<Finding> {
    let routing = &bay.routings[0];
    check(bay, routing, &solve_whole(bay, routing))
}

fn fails(findings: &[Finding]) -> usize {
    findings.iter().filter(|one| one.severity == Severity::Fail).count()
}

/// Point 5: what is recommended passes every rule that a cut length decides, also when it is cut at either end
/// of its tolerance; and so does every other length of the acceptable ranges.
#[test]
fn every_advised_length_is_free_of_what_it_was_advised_for() {
    let told: Vec<(usize, Vec<String>)> = (0..BAYS)
        .into_par_iter()
        .map(|seed| {
            let bay = random_bay(seed);
            let routing = &bay.routings[0];
            let solution = solve_whole(&bay, routing);
            let Some(advice) = advise(&bay, routing, &solution).remove(0) else {
                return (0, Vec::new());
            };
            let solved = solution.run(0).unwrap();
            let mut lengths = Vec::new();
            if let Some(one) = advice.recommended {
                let (cut, within) = (one.cut_mm, one.within_mm - 0.05);
                lengths.extend([cut, cut - within, cut + within]);
            }
            for range in &advice.ranges {
                assert!(range.from_mm >= solved.centreline_mm - 1e-6, "below the drawn line");
                let at = |share: f64| range.from_mm + share * (range.to_mm - range.from_mm);
                lengths.extend([at(0.1), at(0.5), at(0.9)]);
            }
            let mut wrong = Vec::new();
            for cut in &lengths {
                let mut trial = bay.clone();
                trial.routings[0].runs[0] =
                    with_cut_length(&routing.runs[0], solved, *cut).unwrap();
                let found = findings(&trial);
                let bad = found
                    .iter()
                    .filter(|one| one.severity == Severity::Fail && OF_LENGTH.contains(&one.rule));
                wrong.extend(bad.map(|one| format!("{seed}: cut {cut:.2}: {}", one.message)));
            }
            (lengths.len(), wrong)
        })
        .collect();
    let (tried, wrong) = told.into_iter().fold((0, Vec::new()), |(n, mut all), (k, wrong)| {
        all.extend(wrong);
        (n + k, all)
    });
    println!("{tried} advised lengths tried, {} with a fault", wrong.len());
    assert!(tried > 500 && wrong.is_empty(), "{tried} {wrong:#?}");
}

/// Point 11: who follows the first hint, again and again, comes to a bay without faults or is told plainly that
/// nothing tried clears it. No circles: every step leaves fewer faults.
#[test]
fn following_the_first_hint_ends_without_faults_or_is_told_plainly() {
    let ends: Vec<(bool, bool)> = (0..BAYS)
        .into_par_iter()
        .map(|seed| {
            let mut bay = random_bay(seed);
            let had = fails(&findings(&bay)) > 0;
            loop {
                let routing = &bay.routings[0];
                let solution = solve_whole(&bay, routing);
                let found = check(&bay, routing, &solution);
                let before = fails(&found);
                if before == 0 {
                    return (had, true);
                }
                let found = found.into_iter().map(Arc::new).collect();
                let (told, sought) = remedy::with_tried_hints(&bay, routing, &solution, found);
                let Some(remedy) = sought.into_iter().find_map(|one| one.remedy) else {
                    let first = &told[0];
                    assert!(
                        first.hint.starts_with("No single change clears this"),
                        "{seed}: {}",
                        first.hint
                    );
                    return (had, false);
                };
                assert!(told[0].hint.contains(". Tried: "), "{seed}: {}", told[0].hint);
                bay.routings[0].runs[0] = remedy.changed;
                let after = fails(&findings(&bay));
                assert!(after < before, "{seed}: {before} faults, then {after}");
            }
        })
        .collect();
    let had = ends.iter().filter(|(had, _)| *had).count();
    let cleared = ends.iter().filter(|(had, cleared)| *had && *cleared).count();
    println!(
        "{had} of {BAYS} bays had a fault; {cleared} of them are without after following hints"
    );
    assert!(had > 100 && 2 * cleared > had, "{had} {cleared}");
}
