//! Hoses while groups move: positions against sums by hand, and against the same bay drawn in that position.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::build::{LIMIT_MM, SOCKET_MM, bay, port, run, straight_end};
use glam::{DQuat, DVec3};
use hosewright::checks::{Severity, check};
use hosewright::engine::lengths::{Stop, advise};
use hosewright::engine::motion::{Positions, RunPosition};
use hosewright::engine::{RoutingSolution, solve_whole};
use hosewright::model::{Bay, Motion, MovingGroup, Nature, Obstacle, Shape};

fn group(id: &str, moves: Vec<Motion>) -> MovingGroup {
    MovingGroup { id: id.into(), name: id.into(), moves, extra: vec![] }
}

fn shift(from: DVec3, to: DVec3) -> Motion {
    Motion::Slide { from, to, extra: vec![] }
}

fn pivot(about: DVec3, axis: DVec3, from_deg: f64, to_deg: f64) -> Motion {
    Motion::Pivot { about, axis, from_deg, to_deg, extra: vec![] }
}

/// Straight along +X from the origin to a port on a group that moves, with slack.
fn straight(length_mm: f64, slack_pct: f64, moves: Vec<Motion>) -> Bay {
    let mut hose = run(straight_end("a", None), straight_end("b", None), vec![]);
    hose.slack_pct = Some(slack_pct);
    let mut b = port("b", length_mm * DVec3::X, -DVec3::X);
    b.group = Some("engine".into());
    let mut bay = bay(vec![port("a", DVec3::ZERO, DVec3::X), b], hose);
    bay.groups = vec![group("engine", moves)];
    bay
}

fn whole(bay: &Bay) -> RoutingSolution {
    solve_whole(bay, &bay.routings[0])
}

fn found(bay: &Bay, rule: &str) -> Vec<hosewright::checks::Finding> {
    let all = check(bay, &bay.routings[0], &whole(bay));
    all.into_iter().filter(|finding| finding.rule == rule).collect()
}

#[test]
fn the_position_as_drawn_and_every_combination_of_extremes_by_name() {
    let moves = vec![
        pivot(DVec3::ZERO, DVec3::X, -3.0, 3.0),
        shift(DVec3::new(0.0, 0.0, -5.0), DVec3::new(0.0, 0.0, 10.0)),
    ];
    let bay = straight(600.0, 5.0, moves);
    let positions = Positions::of(&bay);
    let names: Vec<&str> = positions.all.iter().map(|position| position.name.as_str()).collect();
    assert_eq!(names.len(), 5);
    assert_eq!(names[0], "as drawn");
    assert!(
        names.iter().any(|name| name.contains("pivoted \u{2212}3°") && name.contains("slid Z +"))
    );
    assert!(positions.is_whole() && positions.combinations == 4.0);
    // A pivot by 3° about X and then a shift by −5 mm in Z, by hand.
    let p = DVec3::new(1.0, 2.0, 3.0);
    let by_hand = DQuat::from_axis_angle(DVec3::X, 3.0_f64.to_radians()) * p - 5.0 * DVec3::Z;
    assert!(
        positions.all.iter().any(|position| position.groups[0].point(p).distance(by_hand) < 1e-12)
    );
}

#[test]
fn a_bay_without_groups_has_the_position_as_drawn_only() {
    let mut still = straight(600.0, 5.0, vec![]);
    still.groups.clear();
    still.ports[1].group = None;
    let solution = whole(&still);
    let (motion, positions) = solution.motion_of(0).unwrap();
    assert_eq!((positions.all.len(), motion.positions.len(), motion.rides), (1, 1, false));
    let installed = &solution.lay_of(0).unwrap().installed;
    assert_eq!(motion.positions[0].tightest, installed.tightest);
}

#[test]
fn the_reach_is_the_hose_shortened_less_the_straight_way() {
    // The port goes 40 mm away; the free span of 560 mm has all the slack of 5 % of 600 mm, and the
    // test hose gets 4 % shorter under pressure.
    let away = straight(600.0, 5.0, vec![shift(DVec3::ZERO, 40.0 * DVec3::X)]);
    let solution = whole(&away);
    let (motion, _) = solution.motion_of(0).unwrap();
    let (position, reach) = motion.least_reach().unwrap();
    let span = 600.0 - 2.0 * SOCKET_MM;
    let spare = (span + 30.0) * 0.96 - (span + 40.0);
    assert!((reach.spare_mm - spare).abs() < 1e-9, "{} {spare}", reach.spare_mm);
    let told = found(&away, "motion-reach");
    assert_eq!((told.len(), told[0].severity), (1, Severity::Fail));
    assert!((told[0].value.unwrap() - spare).abs() < 1e-9);
    assert!(told[0].message.contains("engine slid X +") && position > 0, "{}", told[0].message);
    // 3 mm away it reaches.
    assert_eq!(
        found(&straight(600.0, 5.0, vec![shift(DVec3::ZERO, 3.0 * DVec3::X)]), "motion-reach"),
        []
    );
}

#[test]
fn a_position_is_as_the_same_bay_drawn_in_it() {
    let by = DVec3::new(-30.0, 20.0, 15.0);
    let moved = straight(600.0, 5.0, vec![shift(DVec3::ZERO, by)]);
    let solution = whole(&moved);
    let (motion, _) = solution.motion_of(0).unwrap();
    let in_position = motion.positions.last().unwrap();
    // Drawn there, with the slack that makes the same cut length.
    let mut drawn = straight(600.0, 5.0, vec![]);
    drawn.ports[1].at += by;
    let cut = solution.run(0).unwrap().cut_length_mm;
    drawn.routings[0].runs[0].slack_pct = Some(0.0);
    let centre = whole(&drawn).run(0).unwrap().centreline_mm;
    drawn.routings[0].runs[0].slack_pct = Some(100.0 * (cut / centre - 1.0));
    let there = whole(&drawn);
    let installed = &there.lay_of(0).unwrap().installed;
    assert!((installed.cut_length_mm - cut).abs() < 1e-9);
    let (a, b) = (in_position.min_radius_mm().unwrap(), installed.min_radius_mm().unwrap());
    assert!((a / b - 1.0).abs() < 1e-3, "{a} {b}");
}

#[test]
fn an_obstacle_that_comes_nearer_is_found_in_its_position() {
    let mut bay = straight(600.0, 2.0, vec![]);
    bay.groups.push(group("rod", vec![shift(DVec3::ZERO, 80.0 * DVec3::Z)]));
    let about = |z: f64| Shape::Box {
        min: DVec3::new(200.0, -200.0, z - 20.0),
        max: DVec3::new(400.0, 200.0, z),
    };
    bay.obstacles.push(Obstacle {
        id: "s".into(),
        name: "Tie rod".into(),
        nature: Nature::Plain,
        min_clearance_mm: Some(5.0),
        group: Some("rod".into()),
        shape: about(-140.0),
        locked: None,
        extra: vec![],
    });
    assert_eq!(found(&bay, "installed-clearance"), []);
    let told = found(&bay, "motion-clearance");
    assert_eq!((told.len(), told[0].severity), (1, Severity::Fail));
    assert!(told[0].message.contains("rod slid Z +") && told[0].message.contains("Tie rod"));
}

#[test]
fn the_needed_slack_just_holds_in_every_position() {
    let moves = vec![shift(-12.0 * DVec3::X, 12.0 * DVec3::X)];
    let bay = straight(900.0, 5.0, moves.clone());
    let solution = whole(&bay);
    let advice = advise(&bay, &bay.routings[0], &solution).remove(0).unwrap();
    let needed = advice.needed.unwrap();
    let pct = needed.pct.unwrap();
    // By hand: shortened by 4 %, the span must still reach 12 mm farther.
    let span = 900.0 - 2.0 * SOCKET_MM;
    let slack_mm = (span + 12.0) / 0.96 - span;
    assert_eq!(needed.stop, Some(Stop::Reach));
    assert!((pct / 100.0 * 900.0 - slack_mm).abs() < 0.2, "{pct} {slack_mm}");
    for (pct, holds) in [(pct, true), (pct - 0.05, false)] {
        let trial = straight(900.0, pct, moves.clone());
        let is_fine =
            ["motion-reach", "motion-radius"].iter().all(|rule| found(&trial, rule).is_empty());
        assert_eq!(is_fine, holds, "{pct}");
    }
}

/// From the origin along +X up and to the side, to a port on the group; no shape of it ties.
fn bent(moves: Vec<Motion>) -> Bay {
    let mut bay = straight(600.0, 5.0, moves);
    bay.ports[1].at = DVec3::new(420.0, 330.0, 140.0);
    bay.ports[1].toward = DVec3::new(0.2, -1.0, -0.3);
    bay
}

#[test]
fn what_rides_as_a_whole_lies_as_before() {
    // Both ends and the obstacle on one group: nothing changes between them.
    let mut together = bent(vec![pivot(DVec3::Y, DVec3::new(1.0, 2.0, 0.5), -8.0, 8.0)]);
    together.ports[0].group = Some("engine".into());
    together.obstacles.push(Obstacle {
        id: "s".into(),
        name: "Sump".into(),
        nature: Nature::Plain,
        min_clearance_mm: Some(10.0),
        group: Some("engine".into()),
        shape: Shape::Sphere { at: DVec3::new(300.0, 350.0, -60.0), radius: 100.0 },
        locked: None,
        extra: vec![],
    });
    let solution = whole(&together);
    let (motion, _) = solution.motion_of(0).unwrap();
    let still = &motion.positions[0];
    assert_eq!(motion.positions.len(), 3);
    for position in &motion.positions[1..] {
        let radius = |position: &RunPosition| position.min_radius_mm().unwrap();
        assert!((radius(position) / radius(still) - 1.0).abs() < 1e-6);
        let gap = |position: &RunPosition| position.clearance.unwrap().gap_mm;
        assert!((gap(position) - gap(still)).abs() < 1e-3, "{} {}", gap(position), gap(still));
        assert!((position.reach.spare_mm - still.reach.spare_mm).abs() < 1e-9);
    }
}

#[test]
fn the_lengths_that_will_do_hold_and_those_beyond_do_not() {
    let bay = straight(500.0, 10.0, vec![]);
    let solution = whole(&bay);
    let advice = advise(&bay, &bay.routings[0], &solution).remove(0).unwrap();
    // A span held in line gets tighter with every bit of slack: one range, from the least that reaches.
    assert_eq!(advice.ranges.len(), 1, "{advice:?}");
    let range = advice.ranges[0];
    assert!(range.is_open_below && !range.is_open_above, "{range:?}");
    let radius_at = |cut: f64| {
        let trial = straight(500.0, 100.0 * (cut / 500.0 - 1.0), vec![]);
        whole(&trial).lay_of(0).unwrap().installed.min_radius_mm().unwrap()
    };
    assert!(radius_at(range.to_mm - 0.1) > LIMIT_MM && radius_at(range.to_mm + 0.1) < LIMIT_MM);
    let (less, more) = (advice.inch.less_mm.unwrap(), advice.inch.more_mm.unwrap());
    assert!(less > advice.inch.as_cut_mm.unwrap() && advice.inch.as_cut_mm.unwrap() > more);
}
