//! The drawn centre line against closed forms worked by hand, to 1e-6 mm and 1e-6° (contract
//! §2–4), for bays of 10 m; and the stated answers to degenerate input.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use std::f64::consts::{PI, SQRT_2};

use common::build::{
    LIMIT_MM, OUTSIDE_MM, SOCKET_MM, STRAIGHT_MM, bay, between, clamp, corner, elbow_end, port,
    run, solved, straight_end,
};
use glam::DVec3;
use hosewright::model::Via;

fn near(got: f64, expected: f64) {
    assert!((got - expected).abs() <= 1e-6, "{got} is not {expected}");
}

const X: DVec3 = DVec3::X;
const Y: DVec3 = DVec3::Y;
const Z: DVec3 = DVec3::Z;
const O: DVec3 = DVec3::ZERO;

#[test]
fn a_hose_in_line_is_its_distance_and_bends_nowhere() {
    let run = between((O, X, Some(100.0)), (10_000.0 * X, -X, Some(100.0)), vec![]);
    near(run.centreline_mm, 10_000.0);
    assert_eq!(run.bends(), vec![]);
    assert_eq!(run.min_radius_mm, None);
    assert_eq!(run.clock_between_deg, None);
    assert!(!run.is_taut() || run.shortened_mm < run.taut_limit_mm);
}

#[test]
fn one_square_corner_is_shorter_by_two_tangents_less_a_quarter_circle() {
    // Both leads meet in one corner at (5000, 0, 0).
    let b = DVec3::new(5000.0, 4000.0, 0.0);
    let run = between((O, X, Some(5000.0)), (b, -Y, Some(4000.0)), vec![]);
    near(run.centreline_mm, 9000.0 - 2.0 * LIMIT_MM + PI / 2.0 * LIMIT_MM);
    assert_eq!(run.bends().len(), 1);
    near(run.bends()[0].angle_deg, 90.0);
    near(run.bends()[0].radius_mm, LIMIT_MM);
    near(run.bends()[0].at_mm, 5000.0 - LIMIT_MM + PI / 4.0 * LIMIT_MM);
    let on_arc = DVec3::new(5000.0 - LIMIT_MM, LIMIT_MM, 0.0)
        + LIMIT_MM / SQRT_2 * DVec3::new(1.0, -1.0, 0.0);
    assert!(run.bends()[0].point.distance(on_arc) < 1e-6);
}

#[test]
fn a_corner_in_space_turns_by_the_angle_between_its_stretches() {
    // Along X, then up a face diagonal of Y and Z: still 90 degrees; then back along −X.
    let up = DVec3::new(0.0, 1.0, 1.0).normalize();
    let c = 3000.0 * X;
    let b = c + 2000.0 * up - 2500.0 * X;
    let run = between((O, X, Some(3000.0)), (b, X, Some(2500.0)), vec![]);
    near(run.centreline_mm, 7500.0 - 2.0 * (2.0 - PI / 2.0) * LIMIT_MM);
    near(run.bends()[0].angle_deg, 90.0);
    near(run.bends()[1].angle_deg, 90.0);
}

#[test]
fn a_tight_corner_shrinks_to_the_room_that_is_left() {
    // Lead 104, of which 44 stay straight: 60 are left for a tangent that needs 100 at 90 degrees.
    let b = DVec3::new(104.0, 4000.0, 0.0);
    let run = between((O, X, Some(104.0)), (b, -Y, Some(4000.0)), vec![]);
    near(run.bends()[0].radius_mm, 60.0);
    near(run.bends()[0].wanted_mm, LIMIT_MM);
    near(run.centreline_mm, 4104.0 - (2.0 - PI / 2.0) * 60.0);
    near(run.from.straight_at_wanted_mm.unwrap(), 104.0 - 100.0 - SOCKET_MM);
}

#[test]
fn room_of_exactly_the_tangents_fits() {
    let b = DVec3::new(500.0, 200.0, 0.0);
    let a = b - 500.0 * X - 200.0 * Y;
    let run = between((a, X, Some(500.0)), (b + 500.0 * X, -X, Some(500.0)), vec![]);
    near(run.min_radius_mm.unwrap(), LIMIT_MM);
    near(run.centreline_mm, 1200.0 - 2.0 * (2.0 - PI / 2.0) * LIMIT_MM);
}

#[test]
fn a_clamp_keeps_its_width_straight_and_splits_the_hose() {
    // A clamp across the way: in along X, through along Y, out along X.
    let middle = DVec3::new(1000.0, 500.0, 0.0);
    let run = between(
        (O, X, Some(500.0)),
        (DVec3::new(2000.0, 1000.0, 0.0), -X, Some(500.0)),
        vec![clamp(middle, 3.0 * Y, 15.0, Some(500.0))],
    );
    near(run.centreline_mm, 3000.0 - 2.0 * (2.0 - PI / 2.0) * LIMIT_MM);
    assert_eq!(run.clamps.len(), 1);
    near(run.clamps[0].at_mm, run.centreline_mm / 2.0);
    assert_eq!(run.spans.len(), 2);
    near(run.spans[0].from_mm, SOCKET_MM);
    near(run.spans[0].to_mm, run.clamps[0].at_mm - 15.0);
}

#[test]
fn slack_goes_to_the_free_spans_in_proportion_and_marks_move_with_it() {
    let middle = DVec3::new(400.0, 0.0, 0.0);
    let ports = vec![port("a", O, X), port("b", 1000.0 * X, -X)];
    let mut hose = run(
        straight_end("a", Some(50.0)),
        straight_end("b", Some(50.0)),
        vec![clamp(middle, X, 10.0, Some(20.0))],
    );
    hose.slack_pct = Some(5.0);
    let solved = solved(&bay(ports, hose));
    near(solved.slack_mm, 50.0);
    near(solved.cut_length_mm, 1050.0);
    let (left, right) = (390.0 - SOCKET_MM, 1000.0 - SOCKET_MM - 410.0);
    near(solved.on_bench_mm(400.0), 400.0 + 50.0 * left / (left + right));
    near(solved.on_bench_mm(0.0), 0.0);
    near(solved.on_bench_mm(1000.0), 1050.0);
}

#[test]
fn set_backs_follow_the_angle_of_the_end() {
    // Contract §2: along at 0°, across at 90°, −along at 180°.
    for (angle, expected) in
        [(0.0, 21.0), (90.0, 25.0), (180.0, -21.0), (45.0, (21.0 + 25.0) / SQRT_2)]
    {
        let ports = vec![port("a", O, X), port("b", 5000.0 * X, -X)];
        let from = elbow_end("a", Some(500.0), angle, 0.0, (21.0, 25.0));
        let run = solved(&bay(ports, run(from, straight_end("b", Some(500.0)), vec![])));
        near(run.from.set_back_mm, expected);
        near(run.overall_mm, run.cut_length_mm + expected);
    }
}

#[test]
fn an_elbow_leaves_towards_its_clock_angle() {
    // A port along X: clock 0 is +Z, 90 is t × u = X × Z = −Y.
    for (clock, way) in [(0.0, Z), (90.0, -Y), (180.0, -Z), (270.0, Y)] {
        let ports = vec![port("a", O, X), port("b", 9000.0 * Y, -Y)];
        let from = elbow_end("a", Some(500.0), 90.0, clock, (21.0, 25.0));
        let run = solved(&bay(ports, run(from, straight_end("b", Some(500.0)), vec![])));
        assert!(run.from.frame.direction.distance(way) < 1e-12);
        assert!(run.from.frame.exit.distance(21.0 * X + 25.0 * way) < 1e-12);
        assert!(run.from.frame.nose.distance(-X) < 1e-12, "the nose points to the seat");
    }
}

#[test]
fn within_a_degree_of_upright_the_clock_is_read_from_the_front() {
    for (tilt_deg, side) in [(0.0, X), (0.99, X), (1.01, -X)] {
        // Tilted towards +X, the part of +Z at right angles points to −X.
        let tilt = f64::to_radians(tilt_deg);
        let toward = DVec3::new(tilt.sin(), 0.0, tilt.cos());
        let frame = hosewright::geom::end_frame(O, toward, 90.0, 0.0, 0.0, 0.0);
        assert!(frame.side.dot(side) > 0.99, "{tilt_deg}");
    }
}

/// Two 90° elbows that leave along X, on ports along Z and along a direction across X turned by
/// `turn` degrees, joined by a straight hose.
fn clock_of_straight_hose(turn: f64) -> f64 {
    let (sin, cos) = f64::to_radians(turn).sin_cos();
    // Port B points so that its nose is Z turned by `turn` counter-clockwise as seen from A, who
    // looks along +X: Z turns towards +Y.
    let nose = DVec3::new(0.0, sin, cos);
    let ports = vec![port("a", O, -Z), port("b", 3000.0 * X, -nose)];
    let from = elbow_end("a", Some(300.0), 90.0, 0.0, (0.0, 0.0));
    let mut to = elbow_end("b", Some(300.0), 90.0, 0.0, (0.0, 0.0));
    // Find the clock of B that makes its hose leave along −X.
    to.clock_deg = (0..3600)
        .map(|tenth| f64::from(tenth) / 10.0)
        .min_by(|p, q| {
            let miss = |clock: f64| {
                let frame = hosewright::geom::end_frame(O, -nose, 90.0, clock, 0.0, 0.0);
                frame.direction.distance(-X)
            };
            miss(*p).total_cmp(&miss(*q))
        })
        .unwrap();
    let run = solved(&bay(ports, run(from, to, vec![])));
    assert!(run.from.frame.direction.distance(X) < 1e-9, "{:?}", run.from.frame);
    assert!(run.to.frame.direction.distance(-X) < 1e-9);
    run.clock_between_deg.unwrap()
}

#[test]
fn clock_angle_counts_counter_clockwise_as_seen_from_a() {
    for turn in [0.0, 30.0, 90.0, 180.0, 270.0, 359.0] {
        near(clock_of_straight_hose(turn), turn);
    }
}

#[test]
fn clock_angle_is_carried_round_bends_without_twist() {
    // In a plane, a nose at right angles to the plane stays so: up stays up round any corner.
    let ports = vec![port("a", O, -Z), port("b", DVec3::new(2000.0, 2000.0, 0.0), -Z)];
    let from = elbow_end("a", Some(2000.0), 90.0, 0.0, (0.0, 0.0));
    // At B the hose arrives along +Y, so the elbow leaves along −Y.
    let direction_of = |clock| hosewright::geom::end_frame(O, -Z, 90.0, clock, 0.0, 0.0).direction;
    let clock = [0.0, 90.0, 180.0, 270.0]
        .into_iter()
        .find(|clock| direction_of(*clock).distance(-Y) < 1e-9)
        .unwrap();
    let to = elbow_end("b", Some(2000.0), 90.0, clock, (0.0, 0.0));
    let run = solved(&bay(ports, run(from, to, vec![])));
    assert_eq!(run.bends().len(), 1);
    near(run.clock_between_deg.unwrap(), 0.0);
}

#[test]
fn taut_is_measured_between_the_socket_mouths() {
    // In line without slack: 4 % shorter under pressure than the way it has to span.
    let run = between((O, X, Some(100.0)), (1000.0 * X, -X, Some(100.0)), vec![]);
    near(run.taut_limit_mm, 1000.0);
    // What the sockets grip (20 mm each) does not get shorter.
    near(run.shortened_mm, 1000.0 - 0.04 * (1000.0 - 40.0));
    assert!(run.is_taut());
}

// --- Straights that are left out -----------------------------------------------------------------

#[test]
fn a_lead_left_out_begins_the_bend_right_behind_the_straight() {
    // Towards a corner far to the side: arc from the end of the straight, then a tangent.
    let run = between(
        (O, X, None),
        (DVec3::new(3000.0, 3000.0, 0.0), -X, Some(1000.0)),
        vec![corner(1000.0, 2000.0, 0.0)],
    );
    assert!(run.from.straight_is_found);
    let bend = &run.bends()[0];
    near(bend.radius_mm, LIMIT_MM);
    near(bend.at_mm - bend.angle_deg.to_radians() / 2.0 * LIMIT_MM, STRAIGHT_MM);
    near(run.from.straight_at_wanted_mm.unwrap(), 2.0 * OUTSIDE_MM);
}

#[test]
fn a_lead_left_out_is_the_smallest_that_fits() {
    let at = |straight| {
        between(
            (O, X, straight),
            (DVec3::new(2500.0, 2500.0, 700.0), -Y, Some(600.0)),
            vec![corner(900.0, 1100.0, 300.0), corner(1900.0, 900.0, 500.0)],
        )
    };
    let found = at(None).from.straight_mm;
    near(at(Some(found)).bends()[0].radius_mm, LIMIT_MM);
    for less in [0.01, 1.0, 10.0, 30.0] {
        assert!(at(Some(found - less)).bends()[0].radius_mm < LIMIT_MM - 1e-6, "{less}");
    }
}

#[test]
fn leads_left_out_at_both_ends_and_a_clamp_settle_together() {
    let run = between(
        (O, X, None),
        (DVec3::new(1500.0, 900.0, 400.0), -X, None),
        vec![clamp(DVec3::new(700.0, 500.0, 200.0), Y, 12.0, None)],
    );
    assert_eq!(run.bends().len(), 4);
    for bend in run.bends() {
        near(bend.radius_mm, LIMIT_MM);
    }
    // Both ends of the hose begin to bend right behind their straight.
    near(run.from.straight_at_wanted_mm.unwrap(), 2.0 * OUTSIDE_MM);
    near(run.to.straight_at_wanted_mm.unwrap(), 2.0 * OUTSIDE_MM);
}

#[test]
fn where_no_lead_fits_the_largest_radius_is_taken() {
    // A point right beside the end, inside the circle that leaves it: no straight fits the wanted 100.
    let at = |straight| {
        between(
            (O, X, straight),
            (DVec3::new(60.0, 2000.0, 0.0), -Y, Some(100.0)),
            vec![corner(60.0, 60.0, 0.0)],
        )
    };
    let best = at(None);
    assert!(best.bends()[0].radius_mm < LIMIT_MM);
    for step in 0..4000 {
        let other = at(Some(f64::from(step) / 10.0));
        let radius = other.bends().first().filter(|b| b.angle_deg > 1e-6).map_or(0.0, |b| {
            if matches!(b.place, hosewright::engine::BendPlace::StraightA) {
                b.radius_mm
            } else {
                0.0
            }
        });
        assert!(radius <= best.bends()[0].radius_mm + 1e-3, "lead {step}/10 gives {radius}");
    }
}

// --- Degenerate input ------------------------------------------------------------------------

#[test]
fn coincident_corners_are_one_corner() {
    let b = DVec3::new(2000.0, 2000.0, 0.0);
    let once = between((O, X, Some(500.0)), (b, -Y, Some(500.0)), vec![corner(2000.0, 0.0, 0.0)]);
    let twice = between(
        (O, X, Some(500.0)),
        (b, -Y, Some(500.0)),
        vec![corner(2000.0, 0.0, 0.0), corner(2000.0, 0.0, 0.0)],
    );
    near(once.centreline_mm, twice.centreline_mm);
    near(twice.min_radius_mm.unwrap(), LIMIT_MM);
    assert_eq!(twice.coincident, vec![1]);
}

#[test]
fn a_corner_on_the_line_does_not_bend() {
    let run = between(
        (O, X, Some(100.0)),
        (3000.0 * X, -X, Some(100.0)),
        vec![corner(1000.0, 0.0, 0.0), corner(1700.0, 0.0, 0.0)],
    );
    assert_eq!(run.bends(), vec![]);
    near(run.centreline_mm, 3000.0);
}

#[test]
fn a_straight_back_turn_has_radius_nought_and_no_clock() {
    let ports = vec![port("a", O, -Z), port("b", 500.0 * X, -Z)];
    let from = elbow_end("a", Some(300.0), 90.0, 0.0, (0.0, 0.0));
    let to = elbow_end("b", Some(300.0), 90.0, 180.0, (0.0, 0.0));
    let run = solved(&bay(ports, run(from, to, vec![corner(2000.0, 0.0, 0.0)])));
    let tightest = run.min_radius_mm.unwrap();
    assert_eq!(tightest, 0.0);
    assert_eq!(run.clock_between_deg, None);
    assert!(run.bends().iter().any(|b| (b.angle_deg - 180.0).abs() < 1e-9));
    assert!(run.centreline_mm.is_finite());
}

#[test]
fn a_lead_of_nought_leaves_a_kink() {
    let run = between((O, X, Some(0.0)), (DVec3::new(0.0, 2000.0, 0.0), -Y, Some(200.0)), vec![]);
    assert_eq!(run.bends()[0].radius_mm, 0.0);
    near(run.bends()[0].angle_deg, 90.0);
    near(run.centreline_mm, 2000.0);
}

#[test]
fn ports_on_top_of_each_other_are_answered() {
    for via in [vec![], vec![corner(0.0, 0.0, 0.0)], vec![corner(400.0, 10.0, 5.0)]] {
        for straight in [None, Some(0.0), Some(50.0)] {
            let run = between((O, X, straight), (O, X, straight), via.clone());
            assert!(run.centreline_mm.is_finite() && run.centreline_mm >= 0.0);
            assert!(run.min_radius_mm.is_none_or(f64::is_finite));
            assert!(run.bends().iter().all(|b| b.at_mm.is_finite() && b.point.is_finite()));
        }
    }
}

#[test]
fn ends_that_face_each_other_too_close_stay_straight() {
    let run = between((O, X, None), (60.0 * X, -X, None), vec![]);
    near(run.centreline_mm, 60.0);
    assert_eq!(run.bends(), vec![]);
}

#[test]
fn a_corner_may_ask_for_its_own_radius() {
    let mut corner = corner(2000.0, 0.0, 0.0);
    if let Via::Corner(corner) = &mut corner {
        corner.radius_mm = Some(300.0);
    }
    let b = DVec3::new(2000.0, 2000.0, 0.0);
    let run = between((O, X, Some(500.0)), (b, -Y, Some(500.0)), vec![corner]);
    near(run.bends()[0].radius_mm, 300.0);
    near(run.centreline_mm, 4000.0 - (2.0 - PI / 2.0) * 300.0);
}
