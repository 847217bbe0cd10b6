//! The installed shape against figures computed elsewhere: `tests/reference/elastica.json` (planar elastica in
//! exact elliptic form, scipy 1.17.1; `spatial`: the lowest rod in space for the same clamps),
//! `rod3d.json` (rods in space by shooting, scipy 1.17.1) and `inverse.json` (cut lengths at which
//! the tightest radius crosses a limit, scipy 1.17.1).
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::build::{SOCKET_MM, between};
use glam::DVec3;
use hosewright::engine::RunSolution;
use hosewright::engine::installed::InstalledSolver;
use hosewright::engine::lengths::{Care, LengthRange, RangeScan, radius_ranges, ranges};
use hosewright::geom::rod::{RodSeed, RodShape, RodSolver, RodSpan, Tie};
use serde_json::Value;

/// What is asked of an installed shape.
const ENERGY: f64 = 2e-3;
const RADIUS: f64 = 5e-3;

fn cases(text: &str) -> Vec<Value> {
    let file: Value = serde_json::from_str(text).unwrap();
    file["cases"].as_array().unwrap().clone()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// A point or direction of two or three components.
fn vector(value: &Value) -> DVec3 {
    let part = |i: usize| value.get(i).map_or(0.0, number);
    DVec3::new(part(0), part(1), part(2))
}

fn planar_span(input: &Value) -> RodSpan {
    let heading = |key: &str| DVec3::from((glam::DVec2::from_angle(number(&input[key])), 0.0));
    RodSpan {
        from: vector(&input["p0"]),
        from_direction: heading("heading0_rad"),
        to: vector(&input["p1"]),
        to_direction: heading("heading1_rad"),
        length: number(&input["length"]),
    }
}

fn spatial_span(input: &Value) -> RodSpan {
    RodSpan {
        from: input.get("p0").map_or(DVec3::ZERO, vector),
        from_direction: vector(&input["T0"]),
        to: vector(&input["p1"]),
        to_direction: vector(&input["T1"]),
        length: input.get("length").map_or(0.0, number),
    }
}

/// Ends, directions and length of `shape` are those of `span`.
fn holds(id: &str, span: &RodSpan, shape: &RodShape) {
    let last = shape.points.len() - 1;
    assert!(shape.points[0].distance(span.from) <= 1e-6, "{id}: start");
    assert!(shape.points[last].distance(span.to) <= 1e-6, "{id}: end");
    assert!(shape.tangents[0].angle_between(span.from_direction) <= 1e-6, "{id}: start way");
    assert!(shape.tangents[last].angle_between(span.to_direction) <= 1e-6, "{id}: end way");
    // The length of the curve through the nodes, from chord and tangents of each piece: an arc of
    // half angle a is a/sin a of its chord.
    let length: f64 = (0..last)
        .map(|i| {
            let half = 0.5 * shape.tangents[i].angle_between(shape.tangents[i + 1]);
            let chord = shape.points[i].distance(shape.points[i + 1]);
            chord * if half > 1e-9 { half / half.sin() } else { 1.0 }
        })
        .sum();
    assert!((length / span.length - 1.0).abs() < 5e-5, "{id}: length {length}");
    assert!((shape.length / span.length - 1.0).abs() <= 1e-15, "{id}: length");
    assert!((shape.stations[last] / span.length - 1.0).abs() <= 1e-6, "{id}: length");
}

fn agrees(id: &str, shape: &RodShape, energy: f64, radius: f64) {
    let off = shape.energy / energy - 1.0;
    assert!(off.abs() <= ENERGY, "{id}: energy off by {off:e}");
    let off = shape.min_radius().unwrap() / radius - 1.0;
    assert!(off.abs() <= RADIUS, "{id}: tightest radius off by {off:e}");
    assert!(shape.error.energy <= ENERGY && shape.error.radius <= RADIUS, "{id}: estimate");
}

/// The error is no greater than it was estimated to be.
fn estimated(id: &str, shape: &RodShape, energy: f64, radius: f64) {
    let off = (shape.energy / energy - 1.0).abs();
    assert!(off <= shape.error.energy + 1e-7, "{id}: energy off by {off:e}");
    let off = (shape.min_radius().unwrap() / radius - 1.0).abs();
    assert!(off <= shape.error.radius + 1e-7, "{id}: radius off by {off:e}");
}

/// The nodes of `shape` lie within `share` of its length of the points listed at equal stations.
fn same_place(id: &str, shape: &RodShape, points: &[DVec3], share: f64) {
    for (i, point) in points.iter().enumerate() {
        let s = shape.length * i as f64 / (points.len() - 1) as f64;
        let off = shape.point_at(s).distance(*point);
        assert!(off <= share * shape.length, "{id}: {off} mm off at {s} mm");
    }
}

#[test]
fn planar_elastica_and_what_becomes_of_them_in_space() {
    let mut solver = RodSolver::default();
    let cases = cases(include_str!("reference/elastica.json"));
    assert!(cases.len() >= 30);
    let mut compared = 0;
    for case in &cases {
        let (id, solution) = (case["id"].as_str().unwrap(), &case["solution"]);
        let span = planar_span(&case["input"]);
        let shape = solver.solve(&span, RodSeed::Plain, DVec3::Y).expect(id).clone();
        holds(id, &span, &shape);
        let spatial = &case["spatial"];
        let lowest = spatial.is_object();
        let (energy, radius) = if lowest {
            (number(&spatial["lowest_energy"]), number(&spatial["min_radius"]))
        } else {
            (number(&solution["energy"]), number(&solution["min_radius"]))
        };
        agrees(id, &shape, energy, radius);
        // A plane shape that is the only one there is must also lie where it should.
        if solution["out_of_plane"] == "stable" {
            let list = |key: &str| solution[key].as_array().unwrap().clone();
            let points: Vec<DVec3> = list("x")
                .iter()
                .zip(&list("y"))
                .map(|(x, y)| DVec3::new(number(x), number(y), 0.0))
                .collect();
            same_place(id, &shape, &points, 1e-4);
            assert_eq!(shape.tie, Tie::None, "{id}");
            compared += 1;
        }
        // What leaves its plane has a mirror image; what is held in line bows any way round.
        if lowest && spatial["leaves_plane"] == true {
            assert_ne!(shape.tie, Tie::None, "{id}: a twin");
        }
        if solution["out_of_plane"] == "neutral" {
            assert!(matches!(shape.tie, Tie::AnyWayRound { .. }), "{id}: any way round");
        }
    }
    assert!(compared >= 15, "{compared}");
}

#[test]
fn rods_in_space() {
    let mut solver = RodSolver::default();
    let cases = cases(include_str!("reference/rod3d.json"));
    assert!(cases.len() >= 10);
    for case in &cases {
        let (id, solution) = (case["id"].as_str().unwrap(), &case["solution"]);
        let span = spatial_span(&case["input"]);
        let shape = solver.solve(&span, RodSeed::Plain, DVec3::Z).expect(id).clone();
        holds(id, &span, &shape);
        let (energy, radius) = (number(&solution["energy"]), number(&solution["min_radius"]));
        agrees(id, &shape, energy, radius);
        estimated(id, &shape, energy, radius);
        let points: Vec<DVec3> =
            solution["points"].as_array().unwrap().iter().map(vector).collect();
        // Of twins the one with +z was chosen in the reference, and by the side here.
        same_place(id, &shape, &points, 1e-5);
        let force = vector(&solution["force"]);
        assert!((shape.force - force).length() <= 1e-3 * force.length(), "{id}: {}", shape.force);
        assert_eq!(shape.tie != Tie::None, case["symmetry_tie"].as_bool().unwrap(), "{id}: tie");
    }
}

/// Where the ranges begin and end is where the reference says that the limit is crossed.
fn crosses(id: &str, found: &[LengthRange], crossings: &[Value], tolerance: f64) {
    let mut ends =
        found.iter().flat_map(|range| [(range.from_mm, "enters"), (range.to_mm, "leaves")]);
    for crossing in crossings {
        let (length, direction) = ends.next().expect(id);
        assert_eq!(direction, crossing["direction"].as_str().unwrap(), "{id}");
        let expected = number(&crossing["length"]);
        assert!((length / expected - 1.0).abs() <= tolerance, "{id}: {length}, not {expected}");
    }
    assert!(found.last().unwrap().is_open_above, "{id}");
    assert_eq!(ends.count(), 1, "{id}: nothing but the end of the scan");
}

/// From hardly more than the chord to six times it, as the reference scanned.
fn scan(case: &Value) -> RangeScan {
    let over = case["scan"]["length_over_chord"].as_array().unwrap();
    let chord = vector(&case["input"]["p1"]).length();
    let of = |value: Option<&Value>| chord * number(value.unwrap());
    RangeScan { from_mm: of(over.first()), to_mm: of(over.last()) }
}

#[test]
fn lengths_that_keep_the_radius_of_one_span() {
    let mut solver = RodSolver::default();
    for case in cases(include_str!("reference/inverse.json")) {
        let id = case["id"].as_str().unwrap();
        let limit = number(&case["input"]["min_radius"]);
        let found = ranges(scan(&case), Care::FINE, |length| {
            let span = RodSpan { length, ..spatial_span(&case["input"]) };
            let shape = solver.solve(&span, RodSeed::Plain, DVec3::Z).ok()?;
            Some(shape.min_radius()? - limit)
        });
        crosses(id, &found, case["crossings"].as_array().unwrap(), 1e-4);
    }
}

/// The reference's span as the free span of a run: its ends are socket mouths.
fn as_run(input: &Value) -> RunSolution {
    let span = spatial_span(input);
    let (a, b) = (span.from_direction, span.to_direction);
    between((span.from - SOCKET_MM * a, a, None), (span.to + SOCKET_MM * b, -b, None), vec![])
}

#[test]
fn lengths_that_keep_the_radius_of_a_run() {
    let mut solver = InstalledSolver::default();
    for case in cases(include_str!("reference/inverse.json")) {
        let id = case["id"].as_str().unwrap();
        let run = as_run(&case["input"]);
        assert_eq!(run.spans.len(), 1, "{id}");
        let sockets = 2.0 * SOCKET_MM;
        let free = scan(&case);
        let scan = RangeScan { from_mm: free.from_mm + sockets, to_mm: free.to_mm + sockets };
        let limit = number(&case["input"]["min_radius"]);
        let found: Vec<LengthRange> = radius_ranges(&mut solver, &run, limit, scan)
            .into_iter()
            .map(|range| LengthRange {
                from_mm: range.from_mm - sockets,
                to_mm: range.to_mm - sockets,
                ..range
            })
            .collect();
        crosses(id, &found, case["crossings"].as_array().unwrap(), 1e-4);
    }
}

#[test]
fn the_radius_over_the_length_is_that_of_the_reference() {
    let mut solver = RodSolver::default();
    let mut compared = 0;
    for case in cases(include_str!("reference/inverse.json")) {
        let (id, scan) = (case["id"].as_str().unwrap(), &case["scan"]);
        let chord = vector(&case["input"]["p1"]).length();
        let lists = ["length_over_chord", "min_radius"].map(|key| scan[key].as_array().unwrap());
        for (over, radius) in lists[0].iter().zip(lists[1]) {
            let length = chord * number(over);
            let span = RodSpan { length, ..spatial_span(&case["input"]) };
            let shape = solver.solve(&span, RodSeed::Plain, DVec3::Z).expect(id);
            let off = shape.min_radius().unwrap() / number(radius) - 1.0;
            assert!(off.abs() < RADIUS, "{id}: {length} mm: off by {off:e}");
            compared += 1;
        }
    }
    assert!(compared > 1000);
}
