//! The installed shape of whole runs: sockets and clamps straight, each free span by the rod, the slack shared.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::build::{SOCKET_MM, bay, between, clamp, corner, port, run, solved, straight_end};
use glam::DVec3;
use hosewright::engine::RunSolution;
use hosewright::engine::installed::{
    EndHold, Holds, InstalledRun, InstalledSolver, SpanNote, installed,
};
use hosewright::engine::lengths::{RangeScan, inch_effect, radius_ranges};
use hosewright::engine::solve;
use hosewright::geom::rod::RodError;
use hosewright::geom::{Piece, in_line_bow};

/// Straight from the origin along +X, its free span `span_mm` long as drawn, cut with `slack_mm`.
fn straight(span_mm: f64, slack_mm: f64) -> RunSolution {
    let whole = span_mm + 2.0 * SOCKET_MM;
    let mut hose = run(straight_end("a", None), straight_end("b", None), vec![]);
    hose.slack_pct = Some(100.0 * slack_mm / whole);
    let b = whole * DVec3::X;
    solved(&bay(vec![port("a", DVec3::ZERO, DVec3::X), port("b", b, -DVec3::X)], hose))
}

/// From the origin along +X to the side, through a clamp at its middle.
fn clamped(slack_pct: f64) -> RunSolution {
    let via = vec![clamp(DVec3::new(300.0, 150.0, 0.0), DVec3::new(1.0, 1.0, 0.2), 10.0, None)];
    let mut hose = run(straight_end("a", None), straight_end("b", None), via);
    hose.slack_pct = Some(slack_pct);
    let b = port("b", DVec3::new(600.0, 500.0, 100.0), -DVec3::Y);
    solved(&bay(vec![port("a", DVec3::ZERO, DVec3::X), b], hose))
}

/// One piece goes on where and as the last one ended, from exit to exit, as long as the hose.
fn is_one_line(run: &RunSolution, installed: &InstalledRun) {
    let mut end = (run.from.frame.exit, run.from.frame.direction);
    let mut length = 0.0;
    for (at, piece) in &installed.pieces {
        assert!((at - length).abs() < 1e-3, "{at} {length}");
        assert!(piece.point_at(0.0).distance(end.0) < 1e-6, "a gap at {at}");
        assert!(piece.direction_at(0.0).distance(end.1) < 1e-6, "a kink at {at}");
        end = (piece.point_at(piece.length()), piece.direction_at(piece.length()));
        length += piece.length();
    }
    assert!(end.0.distance(run.to.frame.exit) < 1e-6);
    assert!(end.1.distance(-run.to.frame.direction) < 1e-6);
    assert!((length / installed.cut_length_mm - 1.0).abs() < 1e-5, "{length}");
    assert_eq!(installed.points[0], run.from.frame.exit);
    assert!(installed.points.last().unwrap().distance(run.to.frame.exit) < 1e-6);
}

#[test]
fn without_slack_a_straight_run_lies_as_drawn() {
    let run = straight(400.0, 0.0);
    let installed = InstalledSolver::default().installed(&run);
    assert_eq!((installed.min_radius_mm(), installed.bending_energy_1_per_mm), (None, 0.0));
    assert!(
        installed.bulge.mm < 1e-9 && installed.is_whole() && installed.spans[0].notes.is_empty()
    );
    is_one_line(&run, &installed);
}

#[test]
fn slack_on_a_straight_run_hangs_in_the_bow_of_the_closed_form() {
    let run = straight(300.0, 15.0);
    let installed = InstalledSolver::default().installed(&run);
    let bow = in_line_bow(300.0, 0.05).unwrap();
    assert!((installed.min_radius_mm().unwrap() / bow.radius - 1.0).abs() < 1e-4);
    assert!((installed.bulge.mm / bow.height - 1.0).abs() < 1e-3, "{}", installed.bulge.mm);
    assert!(installed.bulge.point.z < 0.0 && installed.bulge.point.y.abs() < 0.1);
    assert!((installed.bulge.at_mm - installed.cut_length_mm / 2.0).abs() < 5.0);
    assert_eq!(installed.spans[0].notes, [SpanNote::Tie]);
    is_one_line(&run, &installed);
    // All ways round: each as tight, no two the same.
    let others = installed.spans[0].alternatives(3);
    assert_eq!(others.len(), 3);
    let highest = others.iter().flat_map(|shape| &shape.points).map(|p| p.z);
    assert!((highest.fold(0.0, f64::max) / bow.height - 1.0).abs() < 1e-3);
}

#[test]
fn grips_are_straight_and_the_slack_is_shared_by_drawn_length() {
    let run = clamped(5.0);
    let installed = InstalledSolver::default().installed(&run);
    is_one_line(&run, &installed);
    assert_eq!(installed.spans.len(), 2);
    let straights: Vec<f64> = installed
        .pieces
        .iter()
        .filter(|(_, piece)| matches!(piece, Piece::Line { .. }))
        .map(|(_, piece)| piece.length())
        .collect();
    for grip in [SOCKET_MM, 20.0, SOCKET_MM] {
        assert!(straights.iter().any(|length| (length - grip).abs() < 1e-9), "{straights:?}");
    }
    for (span, drawn) in installed.spans.iter().zip(&run.spans) {
        let (length, share) = (drawn.length_mm(), drawn.slack_mm);
        assert!((span.held.length - length - share).abs() < 1e-9);
        assert!((span.drawn_from_mm - drawn.from_mm).abs() < 1e-9);
    }
    let sum: f64 = installed.spans.iter().map(|span| span.shape.as_ref().unwrap().energy).sum();
    assert!((sum / installed.bending_energy_1_per_mm - 1.0).abs() < 1e-12);
    let place = installed.tightest.unwrap();
    let span = &installed.spans[place.span];
    assert!((span.from_mm..=span.to_mm()).contains(&place.at_mm));
    let radius = span.shape.as_ref().unwrap().min_radius().unwrap();
    assert!((place.radius_mm / radius - 1.0).abs() < 1e-12);
}

#[test]
fn where_a_span_has_no_lie_the_drawn_route_stands_and_it_is_said() {
    let run = straight(300.0, 15.0);
    let mut solver = InstalledSolver::default();
    let installed =
        solver.installed_at(&run, run.centreline_mm - 5.0, &Holds::as_drawn(&run), None);
    assert!(!installed.is_whole() && installed.spans[0].shape.is_none());
    assert!(matches!(
        installed.spans[0].notes[..],
        [SpanNote::NotSolved(RodError::TooShort { .. })]
    ));
    assert!(installed.pieces.iter().all(|(_, piece)| matches!(piece, Piece::Line { .. })));
    assert!(installed.points.iter().all(|p| p.y == 0.0 && p.z == 0.0));
    assert_eq!(solver.min_radius_at(&run, run.centreline_mm - 5.0), None);
}

#[test]
fn a_moved_end_takes_its_hose_along() {
    let run = clamped(5.0);
    let mut solver = InstalledSolver::default();
    let as_drawn = solver.installed(&run);
    let mut holds = Holds::as_drawn(&run);
    holds.to = EndHold { exit: holds.to.exit + DVec3::new(8.0, -5.0, 6.0), ..holds.to };
    let moved = solver.installed_at(&run, run.cut_length_mm, &holds, Some(&as_drawn));
    // The first span does not feel it; the second has the same hose, and another shape.
    let radius = |installed: &InstalledRun, i: usize| {
        installed.spans[i].shape.as_ref().unwrap().min_radius().unwrap()
    };
    assert!((radius(&moved, 0) / radius(&as_drawn, 0) - 1.0).abs() < 1e-6);
    assert!((radius(&moved, 1) / radius(&as_drawn, 1) - 1.0).abs() > 1e-3);
    assert_eq!(moved.spans[1].held.length, as_drawn.spans[1].held.length);
    assert!(!moved.spans.iter().any(|span| span.notes.contains(&SpanNote::Snapped)));
    // By way of the position as drawn or straight from the drawn route: the same.
    let cold = solver.installed_at(&run, run.cut_length_mm, &holds, None);
    for i in 0..2 {
        assert!((radius(&cold, i) / radius(&moved, i) - 1.0).abs() < 1e-5);
    }
    // Pulled out of reach.
    holds.to.exit += DVec3::new(0.0, 400.0, 0.0);
    let torn = solver.installed_at(&run, run.cut_length_mm, &holds, Some(&as_drawn));
    assert!(matches!(torn.spans[1].notes[..], [SpanNote::NotSolved(RodError::TooShort { .. })]));
    assert!(torn.spans[0].shape.is_some());
}

#[test]
fn a_step_drawn_flat_hangs_and_one_drawn_above_stays_above() {
    let a = (DVec3::ZERO, DVec3::X, Some(100.0));
    let b = (DVec3::new(500.0, 120.0, 0.0), -DVec3::X, Some(100.0));
    let mut solver = InstalledSolver::default();
    let run = between(a, b, vec![]);
    let installed =
        solver.installed_at(&run, run.centreline_mm * 1.08, &Holds::as_drawn(&run), None);
    assert_eq!(installed.spans[0].notes, [SpanNote::Tie]);
    assert!(
        installed.points.iter().any(|p| p.z < -5.0) && installed.points.iter().all(|p| p.z < 1e-6)
    );
    assert_eq!(installed.spans[0].alternatives(8).len(), 1);
    let run = between(a, b, vec![corner(250.0, 60.0, 90.0)]);
    let installed =
        solver.installed_at(&run, run.centreline_mm * 1.05, &Holds::as_drawn(&run), None);
    assert_eq!(installed.spans[0].notes, [SpanNote::TwinAcross]);
    assert!(installed.points.iter().any(|p| p.z > 5.0));
}

#[test]
fn side_by_side_is_the_same_as_one_after_the_other() {
    let mut ports = Vec::new();
    let mut runs = Vec::new();
    for k in 0..12 {
        let y = 100.0 * f64::from(k);
        let (a, b) = (format!("a{k}"), format!("b{k}"));
        ports.push(port(&a, DVec3::new(0.0, y, 0.0), DVec3::X));
        ports.push(port(&b, DVec3::new(500.0, y + 200.0, 40.0 * f64::from(k)), -DVec3::Y));
        let mut hose = run(straight_end(&a, None), straight_end(&b, None), vec![]);
        (hose.id, hose.slack_pct) = (format!("r{k}"), Some(5.0));
        runs.push(hose);
    }
    let mut bay = bay(ports, runs.remove(0));
    bay.routings[0].runs.extend(runs);
    let routing = &solve(&bay).routings[0];
    let mut solver = InstalledSolver::default();
    for (installed, run) in installed(routing).iter().zip(&routing.runs) {
        assert_eq!(installed.as_ref().unwrap(), &solver.installed(run.as_ref().unwrap()));
    }
}

#[test]
fn an_inch_more_of_slack_bends_a_straight_run_tighter_and_only_no_slack_keeps_a_wide_radius() {
    let mut solver = InstalledSolver::default();
    let run = straight(500.0, 30.0);
    let effect = inch_effect(&mut solver, &run);
    let of = |slack: f64| in_line_bow(500.0, slack / 500.0).unwrap().radius;
    for (found, slack) in [(effect.less_mm, 4.6), (effect.as_cut_mm, 30.0), (effect.more_mm, 55.4)]
    {
        assert!((found.unwrap() / of(slack) - 1.0).abs() < 1e-4, "{found:?} {slack}");
    }
    // The lengths that bend no tighter than at 30 mm of slack: from straight to there.
    let scan = RangeScan { from_mm: run.centreline_mm - 20.0, to_mm: run.centreline_mm + 100.0 };
    let found = radius_ranges(&mut solver, &run, of(30.0), scan);
    assert_eq!(found.len(), 1);
    assert!((found[0].from_mm - run.centreline_mm).abs() < 1e-3, "{found:?}");
    assert!((found[0].to_mm - run.centreline_mm - 30.0).abs() < 0.01, "{found:?}");
}
