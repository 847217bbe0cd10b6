//! Distances by property: against dense sampling, the same however the bay lies, the same from
//! either side, and `None` exactly where nothing is near enough. All figures invented.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use std::f64::consts::PI;
use std::sync::Arc;

use glam::DVec3;
use hosewright::geom::{
    Chain, Form, MeshField, Piece, Placed, ReachFrom, Rigid, first_reach, piece_piece, point_piece,
};
use proptest::prelude::*;

/// What every answer promises.
const ACCURACY_MM: f64 = 0.01;
const SAMPLES: u32 = 1000;

fn within(reach: f64) -> impl Strategy<Value = DVec3> {
    let span = -reach..reach;
    (span.clone(), span.clone(), span).prop_map(|(x, y, z)| DVec3::new(x, y, z))
}

fn way() -> impl Strategy<Value = DVec3> {
    within(1.0)
        .prop_filter_map("a direction has a length", |v| (v.length() > 0.1).then(|| v.normalize()))
}

fn pieces() -> impl Strategy<Value = Piece> {
    let bits = (within(150.0), way(), way(), 0.0..1.0, 20.0..200.0, 0.01..3.1, 0.0..300.0);
    bits.prop_filter_map("across", |(start, direction, across, kind, radius, angle, length)| {
        let inward = direction.cross(across).try_normalize()?;
        Some(if kind < 0.5 {
            Piece::Line { start, direction, length }
        } else {
            Piece::Arc { start, direction, inward, radius, angle }
        })
    })
}

/// A ball with bumps, closed.
fn bumpy(bumps: &[f64], rings: usize, around: usize) -> (Vec<DVec3>, Vec<[u32; 3]>) {
    let mut points = vec![DVec3::Z * 60.0];
    for ring in 1..rings {
        for step in 0..around {
            let down = PI * ring as f64 / rings as f64;
            let turn = 2.0 * PI * step as f64 / around as f64;
            let radius = bumps[points.len() % bumps.len()];
            let (sin, cos) = down.sin_cos();
            points.push(radius * DVec3::new(sin * turn.cos(), sin * turn.sin(), cos));
        }
    }
    points.push(DVec3::NEG_Z * 60.0);
    let last = points.len() as u32 - 1;
    let at = |ring: usize, step: usize| (1 + (ring - 1) * around + step % around) as u32;
    let mut faces = Vec::new();
    for step in 0..around {
        faces.push([0, at(1, step), at(1, step + 1)]);
        faces.push([last, at(rings - 1, step + 1), at(rings - 1, step)]);
        for ring in 1..rings - 1 {
            faces.push([at(ring, step), at(ring + 1, step), at(ring + 1, step + 1)]);
            faces.push([at(ring, step), at(ring + 1, step + 1), at(ring, step + 1)]);
        }
    }
    (points, faces)
}

fn forms() -> impl Strategy<Value = Form> {
    let size = || 0.0..80.0;
    prop_oneof![
        within(80.0).prop_map(|half| Form::Box { half: half.abs() }),
        (size(), size()).prop_map(|(half, radius)| Form::Cylinder { half, radius }),
        size().prop_map(|radius| Form::Ball { radius }),
        proptest::collection::vec(40.0..80.0, 13).prop_map(|bumps| {
            let (points, faces) = bumpy(&bumps, 6, 9);
            let mesh = MeshField::new(&points, &faces);
            assert!(mesh.is_closed());
            Form::Mesh(Arc::new(mesh))
        }),
    ]
}

fn positions() -> impl Strategy<Value = Rigid> {
    (within(100.0), way(), -PI..PI, within(60.0)).prop_map(|(about, axis, angle, shift)| {
        Rigid::shifted(shift).after(&Rigid::pivoted(about, axis, angle))
    })
}

fn moved(position: &Rigid, piece: &Piece) -> Piece {
    let place = |p: DVec3| position.point(p);
    let turned = |v: DVec3| position.turn * v;
    match *piece {
        Piece::Line { start, direction, length } => {
            Piece::Line { start: place(start), direction: turned(direction), length }
        }
        Piece::Arc { start, direction, inward, radius, angle } => Piece::Arc {
            start: place(start),
            direction: turned(direction),
            inward: turned(inward),
            radius,
            angle,
        },
    }
}

fn sampled(piece: &Piece, distance: impl Fn(DVec3) -> f64) -> f64 {
    let step = piece.length() / f64::from(SAMPLES);
    let at = (0..=SAMPLES).map(|k| distance(piece.point_at(step * f64::from(k))));
    at.fold(f64::INFINITY, f64::min)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_sample_is_nearer_and_the_answer_is_attained(
        piece in pieces(), form in forms(), position in positions(),
    ) {
        let obstacle = Placed::new(form, position);
        let near = obstacle.nearest(&piece, f64::INFINITY).unwrap();
        let sampled = sampled(&piece, |p| obstacle.distance(p).0);
        // Samples are no farther from the minimum than half a step; no distance changes faster.
        prop_assert!(near.distance <= sampled + 1e-6, "{} {sampled}", near.distance);
        let step = piece.length() / f64::from(SAMPLES);
        prop_assert!(near.distance >= sampled - step / 2.0 - 1e-9, "{} {sampled}", near.distance);
        // The places are where they are said to be, and as far from each other.
        prop_assert!(piece.point_at(near.along).distance(near.on_piece) < 1e-9);
        prop_assert!((obstacle.distance(near.on_piece).0 - near.distance).abs() < 1e-6);
        prop_assert!((near.on_piece.distance(near.on_other) - near.distance.abs()).abs() < 1e-6);
    }

    #[test]
    fn the_same_wherever_the_bay_lies(
        piece in pieces(), form in forms(), position in positions(), all in positions(),
    ) {
        let here = Placed::new(form.clone(), position).nearest(&piece, f64::INFINITY).unwrap();
        let there = Placed::new(form, all.after(&position));
        let there = there.nearest(&moved(&all, &piece), f64::INFINITY).unwrap();
        prop_assert!((here.distance - there.distance).abs() < ACCURACY_MM / 100.0);
    }

    #[test]
    fn nothing_is_said_where_nothing_is_near_enough(
        piece in pieces(), form in forms(), position in positions(),
    ) {
        let obstacle = Placed::new(form, position);
        let least = obstacle.nearest(&piece, f64::INFINITY).unwrap().distance;
        prop_assert!(obstacle.nearest(&piece, least - 1e-4).is_none());
        let near = obstacle.nearest(&piece, least + ACCURACY_MM).unwrap();
        prop_assert!((near.distance - least).abs() < 1e-4);
        let chain = Chain::new([(0.0, piece)]);
        let by_chain = chain.nearest(&obstacle, least + ACCURACY_MM).unwrap();
        prop_assert!((by_chain.distance - least).abs() < 1e-4);
    }

    #[test]
    fn two_pieces_from_either_side(one in pieces(), two in pieces()) {
        let (near, along) = piece_piece(&one, &two, f64::INFINITY).unwrap();
        let (turned, _) = piece_piece(&two, &one, f64::INFINITY).unwrap();
        prop_assert!((near.distance - turned.distance).abs() < 3e-3);
        let to_two = |p: DVec3| p.distance(two.point_at(point_piece(p, &two)));
        let sampled = sampled(&one, to_two);
        let step = one.length() / f64::from(SAMPLES);
        prop_assert!(near.distance <= sampled + 3e-3);
        prop_assert!(near.distance >= sampled - step / 2.0 - 1e-9);
        let apart = one.point_at(near.along).distance(two.point_at(along));
        prop_assert!((apart - near.distance).abs() < 1e-6);
    }

    #[test]
    fn the_first_place_far_enough_is_the_first(
        piece in pieces(), form in forms(), position in positions(), target in 0.0..60.0,
    ) {
        let obstacle = Placed::new(form, position);
        let step = piece.length() / f64::from(SAMPLES);
        let at = |k: u32| step * f64::from(k);
        let far = |k: &u32| obstacle.distance(piece.point_at(at(*k))).0 >= target;
        let field = |p: DVec3| obstacle.distance(p);
        let found = first_reach(&piece, ReachFrom::Start, target, &field);
        match (found, (0..=SAMPLES).find(far)) {
            (Some(s), first) => {
                prop_assert!(obstacle.distance(piece.point_at(s)).0 >= target - 1e-6);
                prop_assert!(first.is_none_or(|first| s <= at(first) + 1e-6));
                let before = first.map_or(piece.length(), at).min(s) - 1e-6;
                let near = (0..=SAMPLES).map(at).filter(|k| *k < before);
                for k in near {
                    prop_assert!(obstacle.distance(piece.point_at(k)).0 < target);
                }
            }
            (None, first) => prop_assert!(first.is_none(), "{first:?} is far enough"),
        }
        let back = first_reach(&piece, ReachFrom::End, target, &field);
        prop_assert_eq!(back.is_some(), found.is_some());
        prop_assert!(back.zip(found).is_none_or(|(back, found)| back >= found - 1e-6));
    }

    #[test]
    fn a_part_is_the_same_curve(
        piece in pieces(), a in 0.0..1.0_f64, b in 0.0..1.0_f64, share in 0.0..1.0_f64,
    ) {
        let (from, to) = (a.min(b) * piece.length(), a.max(b) * piece.length());
        let part = piece.part(from, to);
        let s = share * (to - from);
        prop_assert!(part.point_at(s).distance(piece.point_at(from + s)) < 1e-9);
        prop_assert!(part.direction_at(s).distance(piece.direction_at(from + s)) < 1e-9);
    }
}

#[test]
fn a_box_is_the_same_as_its_mesh() {
    let half = DVec3::new(40.0, 25.0, 60.0);
    let corner = |k: usize| {
        let sign = |bit: usize| if k & bit == 0 { -1.0 } else { 1.0 };
        half * DVec3::new(sign(1), sign(2), sign(4))
    };
    let points: Vec<DVec3> = (0..8).map(corner).collect();
    let faces = [
        [0, 2, 1],
        [1, 2, 3],
        [4, 5, 6],
        [5, 7, 6],
        [0, 1, 4],
        [1, 5, 4],
        [2, 6, 3],
        [3, 6, 7],
        [0, 4, 2],
        [2, 4, 6],
        [1, 3, 5],
        [3, 7, 5],
    ];
    // As an STL has it: every triangle with points of its own; and once inside out.
    let soup: Vec<DVec3> =
        faces.iter().flatten().map(|place: &u32| points[*place as usize]).collect();
    let apart: Vec<[u32; 3]> = (0..12).map(|k| [3 * k, 3 * k + 1, 3 * k + 2]).collect();
    let turned: Vec<[u32; 3]> = apart.iter().map(|[a, b, c]| [*a, *c, *b]).collect();
    let obstacle = Placed::new(Form::Box { half }, Rigid::IDENTITY);
    for triangles in [&apart, &turned] {
        let mesh = MeshField::new(&soup, triangles);
        assert!(mesh.is_closed() && mesh.triangles() == 12);
        let mesh = Placed::new(Form::Mesh(Arc::new(mesh)), Rigid::IDENTITY);
        for k in 0..60 {
            let start = DVec3::new(-150.0, f64::from(k) - 30.0, 2.0 * f64::from(k) - 50.0);
            let direction = DVec3::new(1.0, 0.002 * f64::from(k), -0.1).normalize();
            let line = Piece::Line { start, direction, length: 300.0 };
            let inward = direction.any_orthonormal_vector();
            let arc = Piece::Arc { start, direction, inward, radius: 130.0, angle: 2.0 };
            for piece in [line, arc] {
                let by_box = obstacle.nearest(&piece, f64::INFINITY).unwrap().distance;
                let by_mesh = mesh.nearest(&piece, f64::INFINITY).unwrap().distance;
                assert!((by_box - by_mesh).abs() < 1e-4, "{by_box} {by_mesh} {piece:?}");
            }
        }
    }
}

#[test]
fn a_mesh_with_a_hole_has_no_inside() {
    let (points, mut faces) = bumpy(&[50.0], 6, 9);
    faces.pop();
    let mesh = MeshField::new(&points, &faces);
    assert!(!mesh.is_closed());
    let obstacle = Placed::new(Form::Mesh(Arc::new(mesh)), Rigid::IDENTITY);
    let inside = Piece::Line { start: DVec3::ZERO, direction: DVec3::X, length: 5.0 };
    let through = Piece::Line { start: DVec3::ZERO, direction: DVec3::X, length: 100.0 };
    assert!(obstacle.nearest(&inside, f64::INFINITY).unwrap().distance > 30.0);
    assert!(obstacle.nearest(&through, f64::INFINITY).unwrap().distance < 1e-6);
}

#[test]
fn what_has_no_size_has_an_answer() {
    let point = Piece::Line { start: DVec3::ZERO, direction: DVec3::X, length: 0.0 };
    let forms = [
        Form::Box { half: DVec3::ZERO },
        Form::Cylinder { half: 0.0, radius: 0.0 },
        Form::Ball { radius: 0.0 },
    ];
    for form in forms {
        for at in [DVec3::ZERO, DVec3::new(3.0, 4.0, 0.0)] {
            let obstacle = Placed::new(form.clone(), Rigid::shifted(at));
            let near = obstacle.nearest(&point, f64::INFINITY).unwrap();
            assert!((near.distance - at.length()).abs() < 1e-12, "{form:?} {near:?}");
            assert!(near.on_other.is_finite());
        }
    }
    let nothing = Placed::new(Form::Mesh(Arc::new(MeshField::new(&[], &[]))), Rigid::IDENTITY);
    assert_eq!(nothing.nearest(&point, f64::INFINITY), None);
    assert!(Chain::default().nearest(&nothing, f64::INFINITY).is_none());
}
