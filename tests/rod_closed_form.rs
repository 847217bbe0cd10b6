//! The installed shape of a span where it is known by hand: circles, the bow, what rigid motion, mirror and
//! scale leave as it is, nearly taut spans, and what has no installed shape.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use std::f64::consts::{FRAC_PI_2, PI};

use glam::{DQuat, DVec3};
use hosewright::geom::rod::{RodError, RodForm, RodSeed, RodShape, RodSolver, RodSpan, Tie};
use hosewright::geom::{Piece, in_line_bow, point_piece};

const DOWN: DVec3 = DVec3::NEG_Z;

fn solve(span: &RodSpan) -> Result<RodShape, RodError> {
    RodSolver::default().solve(span, RodSeed::Plain, DOWN).cloned()
}

fn span(to: DVec3, from_direction: DVec3, to_direction: DVec3, length: f64) -> RodSpan {
    RodSpan { from: DVec3::ZERO, from_direction, to, to_direction, length }
}

/// A span in space without any symmetry.
fn skew() -> RodSpan {
    let way = DVec3::new(0.3, 0.8, -0.2);
    span(DVec3::new(210.0, 120.0, -60.0), DVec3::new(1.0, 0.2, 0.3), way, 330.0)
}

#[test]
fn a_circle_clamped_as_it_lies_stays_a_circle() {
    for (angle, radius) in [(FRAC_PI_2, 80.0), (PI, 50.0), (1.0, 300.0), (4.0, 120.0)] {
        let (sin, cos) = f64::sin_cos(angle);
        let to = DVec3::new(radius * sin, radius * (1.0 - cos), 0.0);
        let held = span(to, DVec3::X, DVec3::new(cos, sin, 0.0), radius * angle);
        let shape = solve(&held).unwrap();
        assert!((shape.min_radius().unwrap() / radius - 1.0).abs() < 2e-6, "{angle}");
        // ∫κ² ds = L/R².
        assert!((shape.energy * radius / angle - 1.0).abs() < 2e-6, "{angle}");
        let centre = DVec3::new(0.0, radius, 0.0);
        for point in &shape.points {
            assert!((point.distance(centre) - radius).abs() < 1e-5 * radius, "{angle}");
        }
        // No force holds it: only couples at its ends.
        assert!(shape.force.length() * radius * radius < 1e-3, "{angle}: {}", shape.force);
        assert_eq!(shape.tie, Tie::None);
    }
}

#[test]
fn held_in_line_it_bows_by_the_closed_form_and_hangs_down() {
    for slack in [1e-6, 1e-5, 1e-4, 1e-3, 0.01, 0.02, 0.05, 0.1, 0.15] {
        let chord = 400.0;
        let bow = in_line_bow(chord, slack).unwrap();
        let shape =
            solve(&span(chord * DVec3::X, DVec3::X, DVec3::X, chord * (1.0 + slack))).unwrap();
        let off = shape.min_radius().unwrap() / bow.radius - 1.0;
        assert!(off.abs() < 1e-4, "{slack}: radius off by {off:e}");
        let low = shape.points.iter().map(|p| p.z).fold(f64::INFINITY, f64::min);
        assert!((low / -bow.height - 1.0).abs() < 1e-3, "{slack}: {low} for {}", bow.height);
        assert!(
            shape.points.iter().all(|p| p.y.abs() < 1e-3 * bow.height),
            "{slack}: straight down"
        );
        assert!(matches!(shape.tie, Tie::AnyWayRound { .. }), "{slack}");
    }
}

#[test]
fn the_handbooks_table_of_slack_height_and_radius() {
    // Handbook §4: "2 % slack: height 0.0904 S, tightest radius 0.578 S; 3 %: 0.1109, 0.478;
    // 5 %: 0.1437, 0.379; 8 %: 0.1827, 0.311. So 5 % on 300 mm bends to 114 mm" (calculated).
    for (slack, height, radius) in
        [(0.02, 0.0904, 0.578), (0.03, 0.1109, 0.478), (0.05, 0.1437, 0.379), (0.08, 0.1827, 0.311)]
    {
        let shape =
            solve(&span(300.0 * DVec3::X, DVec3::X, DVec3::X, 300.0 * (1.0 + slack))).unwrap();
        assert!((shape.min_radius().unwrap() / 300.0 - radius).abs() < 6e-4, "{slack}");
        let low = shape.points.iter().map(|p| -p.z).fold(0.0, f64::max);
        assert!((low / 300.0 - height).abs() < 6e-5, "{slack}: {low}");
    }
}

#[test]
fn it_moves_with_the_span() {
    let (held, turn) =
        (skew(), DQuat::from_axis_angle(DVec3::new(1.0, -2.0, 0.5).normalize(), 2.2));
    let by = DVec3::new(1e4, -3e3, 70.0);
    let moved = RodSpan {
        from: turn * held.from + by,
        from_direction: turn * held.from_direction,
        to: turn * held.to + by,
        to_direction: turn * held.to_direction,
        length: held.length,
    };
    let (shape, image) = (solve(&held).unwrap(), solve(&moved).unwrap());
    assert!((image.energy / shape.energy - 1.0).abs() < 1e-7);
    for (point, other) in shape.points.iter().zip(&image.points) {
        assert!((turn * *point + by).distance(*other) < 1e-4);
    }
}

#[test]
fn mirror_scale_and_the_other_way_round() {
    let (held, mirror) = (skew(), DVec3::new(1.0, 1.0, -1.0));
    let shape = solve(&held).unwrap();
    let mirrored =
        span(held.to * mirror, held.from_direction * mirror, held.to_direction * mirror, 330.0);
    let image = solve(&mirrored).unwrap();
    for (point, other) in shape.points.iter().zip(&image.points) {
        assert!((*point * mirror).distance(*other) < 1e-4);
    }
    let scaled = span(7.0 * held.to, held.from_direction, held.to_direction, 7.0 * 330.0);
    let image = solve(&scaled).unwrap();
    assert!((7.0 * image.energy / shape.energy - 1.0).abs() < 1e-9);
    assert!((image.min_radius().unwrap() / (7.0 * shape.min_radius().unwrap()) - 1.0).abs() < 1e-9);
    let back = RodSpan {
        from: held.to,
        from_direction: -held.to_direction,
        to: held.from,
        to_direction: -held.from_direction,
        length: held.length,
    };
    let image = solve(&back).unwrap();
    assert!((image.energy / shape.energy - 1.0).abs() < 1e-6);
    assert!((image.peak_at + shape.peak_at - 330.0).abs() < 1e-3);
    for (point, other) in shape.points.iter().rev().zip(&image.points) {
        assert!(point.distance(*other) < 1e-3);
    }
}

#[test]
fn a_tenth_of_a_millimetre_moves_it_by_little_and_warm_is_as_good_as_cold() {
    let mut solver = RodSolver::default();
    let held = skew();
    let first = solver.solve(&held, RodSeed::Plain, DOWN).unwrap().clone();
    for by in [DVec3::X, DVec3::Y, DVec3::Z] {
        let moved = RodSpan { to: held.to + 0.1 * by, ..held };
        let warm = solver.solve(&moved, RodSeed::Previous(&first), DOWN).unwrap().clone();
        let cold = solver.solve(&moved, RodSeed::Plain, DOWN).unwrap();
        assert!(warm.how.warm && !cold.how.warm && warm.how.steps < cold.how.steps);
        for ((a, b), c) in first.points.iter().zip(&warm.points).zip(&cold.points) {
            assert!(a.distance(*b) < 0.4, "{by}");
            assert!(b.distance(*c) < 1e-5, "{by}: {}", b.distance(*c));
        }
    }
}

#[test]
fn nearly_taut_spans_agree_on_both_sides_of_the_closed_form() {
    // The tightness grows as the slack falls: pieces first, the closed form from 28 on.
    let (way_a, way_b) = (DVec3::new(1.0, 1.5, 0.0), DVec3::new(1.0, 0.3, -1.2));
    let mut forms = Vec::new();
    let mut last = f64::INFINITY;
    for k in 0..200 {
        let slack = 0.03 * 0.98_f64.powi(k);
        let chord = 500.0;
        let shape = solve(&span(chord * DVec3::X, way_a, way_b, chord / (1.0 - slack))).unwrap();
        let radius = shape.min_radius().unwrap();
        // A step of 2 % in slack is about 2 % in radius, whichever form answers.
        assert!(
            radius < last && (last.is_infinite() || radius > 0.965 * last),
            "{slack}: {radius}"
        );
        last = radius;
        forms.push(shape.how.form);
        if k == 199 {
            // 8 sin(θmax/2)(sin²(θ1/4) + sin²(θ2/4))/(L − chord): first order in the slack.
            let angles = [way_a, way_b].map(|way| way.angle_between(DVec3::X));
            let share: f64 = angles.iter().map(|a| (a / 4.0).sin().powi(2)).sum();
            let steep = (angles[0].max(angles[1]) / 2.0).sin();
            let curvature = 8.0 * steep * share / (shape.length - chord);
            assert!((radius * curvature - 1.0).abs() < 0.02, "{radius}");
        }
    }
    assert!(forms.contains(&RodForm::Taut) && forms.contains(&RodForm::Pieces));
    assert!(forms.is_sorted_by_key(|form| *form == RodForm::Taut), "one change of form");
}

#[test]
fn what_is_straight_and_what_cannot_be() {
    let straight = solve(&span(100.0 * DVec3::X, 3.0 * DVec3::X, DVec3::X, 100.0)).unwrap();
    assert_eq!(straight.how.form, RodForm::Straight);
    assert_eq!((straight.energy, straight.min_radius()), (0.0, None));
    for length in [99.999, 10.0] {
        let short = solve(&span(100.0 * DVec3::X, DVec3::X, DVec3::X, length));
        assert_eq!(short, Err(RodError::TooShort { length_mm: length, chord_mm: 100.0 }));
    }
    // As long as the straight way, but it would have to turn.
    let short = solve(&span(100.0 * DVec3::X, DVec3::Y, DVec3::X, 100.0));
    assert!(matches!(short, Err(RodError::TooShort { .. })), "{short:?}");
    for broken in [
        span(DVec3::new(f64::NAN, 0.0, 0.0), DVec3::X, DVec3::X, 100.0),
        span(DVec3::X, DVec3::ZERO, DVec3::X, 100.0),
        span(DVec3::X, DVec3::X, DVec3::new(0.0, f64::INFINITY, 0.0), 100.0),
        span(DVec3::X, DVec3::X, DVec3::X, 0.0),
        span(DVec3::X, DVec3::X, DVec3::X, f64::INFINITY),
    ] {
        assert_eq!(solve(&broken), Err(RodError::Input), "{broken:?}");
    }
}

#[test]
fn a_planar_step_leaves_its_plane_and_its_twin_is_its_mirror_image() {
    let held = span(DVec3::new(300.0, 100.0, 0.0), DVec3::X, DVec3::X, 350.0);
    let shape = solve(&held).unwrap();
    let low = shape.points.iter().map(|p| p.z).fold(f64::INFINITY, f64::min);
    assert!(low < -10.0, "it hangs: {low}");
    let Tie::Twins(twins) = shape.tie else { panic!("{:?}", shape.tie) };
    let images: Vec<RodShape> =
        twins.iter().flatten().map(|twin| twin.image(&held, &shape)).collect();
    assert_eq!(images.len(), 1);
    for (a, b) in shape.points.iter().zip(&images[0].points) {
        assert!(a.distance(*b * DVec3::new(1.0, 1.0, -1.0)) < 1e-6 * 350.0);
    }
    // A route drawn above leads to the twin above.
    let route = [DVec3::X, DVec3::new(1.0, 0.5, 0.8), DVec3::new(1.0, 0.5, -0.8), DVec3::X];
    let mut solver = RodSolver::default();
    let above = solver.solve(&held, RodSeed::Route(&route), DOWN).unwrap();
    assert!(above.how.kept_side && above.points.iter().any(|p| p.z > 10.0));
}

#[test]
fn the_chain_of_arcs_follows_the_shape_within_a_hundredth() {
    for held in [skew(), span(DVec3::new(100.0, 0.0, 0.0), DVec3::Y, -DVec3::Y, 250.0)] {
        let shape = solve(&held).unwrap();
        let pieces = shape.pieces(0.005);
        assert!(pieces.len() < 128, "{} pieces", pieces.len());
        let mut end: Option<(DVec3, DVec3)> = None;
        for piece in &pieces {
            if let Some((point, direction)) = end {
                assert!(point.distance(piece.point_at(0.0)) < 1e-9);
                assert!(direction.distance(piece.direction_at(0.0)) < 1e-9);
            }
            end = Some((piece.point_at(piece.length()), piece.direction_at(piece.length())));
        }
        assert!(end.unwrap().0.distance(held.to) < 1e-9);
        let length: f64 = pieces.iter().map(Piece::length).sum();
        assert!((length / held.length - 1.0).abs() < 1e-5, "{length}");
        for i in 0..=500 {
            let point = shape.point_at(held.length * f64::from(i) / 500.0);
            let near = |piece: &Piece| piece.point_at(point_piece(point, piece));
            let off = pieces.iter().map(|piece| point.distance(near(piece)));
            assert!(off.fold(f64::INFINITY, f64::min) < 0.01);
        }
    }
}
