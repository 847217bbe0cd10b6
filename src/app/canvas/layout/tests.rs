use glam::{DVec3, dvec2, dvec3};

use super::*;
use crate::app::canvas::camera::{Cameras, View};
use crate::app::canvas::scene;
use crate::app::{fixture, samples};
use crate::engine::{Solver, solve_routing};

fn measure(text: &str) -> DVec2 {
    dvec2(7.0 * text.chars().count() as f64, 15.0)
}

fn naming() -> Naming<'static> {
    Naming { measure: &measure, asked: &[], run: None, finding: None, buttons: 40.0 }
}

fn laid_out(view: View) -> (Scene, ViewLayout) {
    let bay = fixture::bay();
    let routing = &bay.routings[0];
    let solution = solve_routing(&bay, routing);
    let scene = scene::build(&bay, routing, &solution, &[]);
    let areas = [Area { min: DVec2::ZERO, max: dvec2(700.0, 400.0) }; 3];
    let mut cameras = Cameras::default();
    cameras.fit(scene.bounds.unwrap(), areas);
    let layout = lay_out(&scene, view, areas[0], cameras.of(view), &naming());
    (scene, layout)
}

#[test]
fn a_point_on_a_hose_is_found_and_one_beside_it_is_not() {
    for view in View::ALL {
        let (scene, layout) = laid_out(view);
        let place = Placing { view, area: layout.area, camera: layout.camera };
        let hose = &scene.hoses[0];
        // Near its own end B no other hose of the fixture lies on top.
        let s = hose.line.length() - 100.0;
        let on = place.point(hose.line.point_at(s));
        let (found, mm) = layout.hose_at(on).unwrap();
        assert_eq!(found, 0, "{view:?}");
        if view != View::Front {
            assert!((mm - s).abs() < 2.0, "{view:?} {mm} {s}");
        }
    }
    let (_, layout) = laid_out(View::Plan);
    assert_eq!(layout.hose_at(dvec2(1.0, 1.0)), None);
}

#[test]
fn hoses_are_as_thick_as_they_are() {
    let (scene, layout) = laid_out(View::Plan);
    let half = scene.hoses[0].half_mm * layout.camera.points_per_mm;
    assert!(half > 1.25, "the fixture is drawn large enough");
    assert!((layout.hoses[0].half - half).abs() < 1e-9);
}

#[test]
fn bands_cover_the_whole_hose_without_a_gap() {
    let (scene, layout) = laid_out(View::Side);
    for (index, hose) in scene.hoses.iter().enumerate() {
        let mut spans: Vec<(f64, f64)> = layout
            .bands
            .iter()
            .filter(|b| b.hose == index && b.kind != BandKind::Fitting)
            .map(|b| (b.along_mm[0], *b.along_mm.last().unwrap()))
            .collect();
        spans.sort_by(|a, b| a.0.total_cmp(&b.0));
        assert!(spans[0].0.abs() < 1e-9);
        for pair in spans.windows(2) {
            assert!((pair[0].1 - pair[1].0).abs() < 1e-5, "{pair:?}");
        }
        assert!((spans.last().unwrap().1 - hose.line.length()).abs() < 1e-6);
    }
}

#[test]
fn what_is_nearer_the_viewer_comes_later() {
    let (_, layout) = laid_out(View::Front);
    assert!(layout.bands.windows(2).all(|pair| pair[0].depth <= pair[1].depth));
}

/// The views of a window of 1366 by 768 points: plan, side, front, as they are divided there.
fn views_of_a_small_window() -> [Area; 3] {
    let area = |x: f64, y: f64, w: f64, h: f64| Area { min: dvec2(x, y), max: dvec2(x + w, y + h) };
    [
        area(12.0, 57.0, 605.0, 346.0),
        area(12.0, 412.0, 605.0, 231.0),
        area(625.0, 412.0, 392.0, 231.0),
    ]
}

#[test]
fn a_name_is_written_out_where_there_is_room_and_covers_nothing_there() {
    let mut bay = fixture::bay();
    let long = "The outlet of the pump below the tank, left";
    bay.ports[0].name = long.to_owned();
    let routing = &bay.routings[0];
    let scene = scene::build(&bay, routing, &solve_routing(&bay, routing), &[]);
    let first = Naming { asked: &[Named::Port(0)], ..naming() };
    let mut written_out = 0;
    for width in [260.0, 420.0, 1400.0] {
        let area = Area { min: DVec2::ZERO, max: dvec2(width, 400.0) };
        let mut cameras = Cameras::default();
        cameras.fit(scene.bounds.unwrap(), [area; 3]);
        let layout = lay_out(&scene, View::Plan, area, cameras.of(View::Plan), &first);
        assert_readable(&layout);
        let named = layout.labels.iter().find(|label| label.of == Named::Port(0)).unwrap();
        written_out += u32::from(named.text.starts_with(long));
        assert!(named.text.starts_with(long) || width < 1000.0, "{}", named.text);
    }
    assert!(written_out > 0);
}

/// Lays every view of every routing of every demo bay out, each hose selected in turn.
fn each_demo_layout(mut look: impl FnMut(&Scene, &ViewLayout, &[Named])) {
    for sample in 0..samples::SAMPLES.len() {
        let bay = samples::bay(sample).unwrap();
        for routing in &bay.routings {
            let solution = solve_routing(&bay, routing);
            let findings = crate::checks::Checker::default().check(&bay, routing, &solution);
            let scene = scene::build(&bay, routing, &solution, &findings);
            let areas = views_of_a_small_window();
            let mut cameras = Cameras::default();
            cameras.fit(scene.bounds.unwrap(), areas);
            for run in &routing.runs {
                let place = |id: &str| scene.ports.iter().position(|port| port.id == id).unwrap();
                let first = [&run.from.port, &run.to.port].map(|id| Named::Port(place(id)));
                for view in View::ALL {
                    let naming = Naming { asked: &first, run: Some(&run.id), ..naming() };
                    let area = areas[view.index()];
                    let layout = lay_out(&scene, view, area, cameras.of(view), &naming);
                    look(&scene, &layout, &first);
                }
            }
        }
    }
}

fn assert_readable(layout: &ViewLayout) {
    let shown = layout.markers.iter().filter(|m| !m.is_hidden);
    let marks: Vec<DVec2> =
        layout.ports.iter().map(|port| port.at).chain(shown.map(|m| m.at)).collect();
    for (i, a) in layout.labels.iter().enumerate() {
        assert!(layout.area.contains(a.area.min) && layout.area.contains(a.area.max));
        for b in &layout.labels[i + 1..] {
            assert!(!a.area.meets(b.area), "{:?}: {} and {}", layout.view, a.text, b.text);
        }
        for mark in &marks {
            let near = mark.clamp(a.area.min, a.area.max);
            assert!(near.distance(*mark) > 4.0, "{:?}: {} over a mark", layout.view, a.text);
        }
    }
}

#[test]
fn names_of_a_small_bay_are_all_there_and_readable() {
    let (scene, layout) = laid_out(View::Plan);
    let ports = layout.labels.iter().filter(|label| !label.quiet).count();
    assert!(ports > 0 && ports <= scene.ports.len(), "those that are alone in their place");
    assert_readable(&layout);
}

#[test]
fn names_of_the_demo_bays_cover_neither_each_other_nor_a_mark() {
    let mut looked_at = 0;
    each_demo_layout(|_, layout, _| {
        assert_readable(layout);
        assert!(layout.labels.len() <= 7, "calm until something is pointed at");
        looked_at += layout.labels.len();
    });
    assert!(looked_at > 150, "{looked_at} names in all");
}

#[test]
fn the_ports_of_the_selected_hose_are_always_named() {
    each_demo_layout(|scene, layout, first| {
        for of in first {
            let named = layout.labels.iter().any(|label| label.of == *of);
            assert!(named, "{of:?} of {} in {:?}", scene.ports.len(), layout.view);
        }
    });
}

#[test]
fn an_obstacle_without_a_name_tells_it_under_the_pointer() {
    let mut told = 0;
    each_demo_layout(|scene, layout, _| {
        let nameless = layout.obstacles.iter().rev().find_map(|obstacle| {
            let mark = &scene.obstacles[obstacle.index];
            let named = layout.labels.iter().any(|l| l.text == mark.label || l.text == mark.name);
            (!named).then_some((obstacle, mark))
        });
        let Some((obstacle, mark)) = nameless else { return };
        let Outline::Convex(points) = &obstacle.outline else { return };
        let at = points.iter().copied().sum::<DVec2>() / points.len() as f64;
        // Where something nearer lies over its middle, that is what the pointer is on.
        let Some(label) = pointed(scene, layout, at, &measure) else { return };
        assert!(layout.area.contains(label.area.min) && layout.area.contains(label.area.max));
        told += usize::from(label.text == mark.label);
    });
    assert!(told > 0);
}

#[test]
fn a_port_that_points_at_the_viewer_says_so() {
    let mut bay = fixture::bay();
    bay.ports[0].toward = DVec3::Z;
    bay.ports[1].toward = -DVec3::Z;
    let routing = &bay.routings[0];
    let scene = scene::build(&bay, routing, &solve_routing(&bay, routing), &[]);
    let area = Area { min: DVec2::ZERO, max: dvec2(700.0, 400.0) };
    let layout = lay_out(&scene, View::Plan, area, Camera::default(), &naming());
    assert_eq!(layout.ports[0].faces_viewer, Some(true));
    assert_eq!(layout.ports[1].faces_viewer, Some(false));
    let side = lay_out(&scene, View::Side, area, Camera::default(), &naming());
    assert_eq!(side.ports[0].faces_viewer, None);
}

#[test]
fn dashes_run_on_from_band_to_band() {
    let band = |from: f64, to: f64| Band {
        hose: 0,
        place: 0,
        kind: BandKind::Hose,
        points: vec![dvec2(from, 0.0), dvec2(to, 0.0)],
        along_mm: vec![from, to],
        half: 3.0,
        depth: 0.0,
        before: from,
        round_start: false,
        about: Area::default(),
        cells: super::room::Covered::default(),
    };
    let on = |bands: &[Band]| -> f64 {
        bands.iter().flat_map(|b| b.dashes(7.0, 3.0)).map(|[a, b]| a.distance(b)).sum()
    };
    let whole = on(&[band(0.0, 100.0)]);
    let cut = on(&[band(0.0, 33.0), band(33.0, 71.5), band(71.5, 100.0)]);
    assert!((whole - 70.0).abs() < 1e-9 && (cut - 70.0).abs() < 1e-9, "{whole} {cut}");
}

#[test]
fn what_is_as_it_was_is_kept_and_the_answer_is_the_same() {
    let mut bay = fixture::bay();
    let area = Area { min: DVec2::ZERO, max: dvec2(700.0, 400.0) };
    let mut solver = Solver::default();
    let solution = solver.routing(&bay, &bay.routings[0]);
    let first = scene::build(&bay, &bay.routings[0], &solution, &[]);
    let mut cameras = Cameras::default();
    cameras.fit(first.bounds.unwrap(), [area; 3]);
    let before = scene::Before { scene: first.clone(), bay: Arc::new(bay.clone()) };
    bay.ports[0].at += dvec3(0.0, 6.0, 3.0);
    let routing = &bay.routings[0];
    let solution = solver.routing(&bay, routing);
    let second = scene::build_on(
        &bay,
        routing,
        &solution,
        (&[], &crate::report::findings::Findings::default()),
        Some(before),
    );
    assert!(Arc::ptr_eq(&first.hoses[1], &second.hoses[1]), "the other hose is as it was");
    assert!(!Arc::ptr_eq(&first.hoses[0], &second.hoses[0]));
    assert!(first.obstacles.iter().zip(&second.obstacles).all(|(a, b)| Arc::ptr_eq(a, b)));
    for view in View::ALL {
        let camera = cameras.of(view);
        let before = lay_out(&first, view, area, camera, &naming());
        let fresh = place(&second, view, area, camera, None);
        let mut kept = place(&second, view, area, camera, Some(&before));
        let bands = |layout: &ViewLayout| -> Vec<Band> {
            layout.bands.iter().map(|band| Band::clone(band)).collect()
        };
        assert_eq!(bands(&kept), bands(&fresh), "{view:?}");
        assert_eq!(kept.hoses, fresh.hoses);
        let same = kept.bands.iter().filter(|band| band.hose == 1);
        assert!(same.clone().count() > 3);
        for band in same {
            assert!(before.bands.iter().any(|old| Arc::ptr_eq(old, band)));
        }
        // Names stay where they are, but that of the port that moved.
        kept.labels = name_on(&second, &kept, &naming(), &before);
        assert_readable(&kept);
        for label in &before.labels {
            let moves = label.of == Named::Port(0);
            assert_eq!(kept.labels.contains(label), !moves, "{view:?} {}", label.text);
        }
    }
}

#[test]
fn curves_lie_on_their_arcs() {
    for view in View::ALL {
        let (scene, layout) = laid_out(view);
        let place = Placing { view, area: layout.area, camera: layout.camera };
        for band in layout.bands.iter().filter(|band| band.kind != BandKind::Fitting) {
            let line = &scene.hoses[band.hose].line;
            for (at, mm) in band.points.iter().zip(&band.along_mm) {
                let exact = place.point(line.point_at(*mm));
                assert!(at.distance(exact) < 0.05, "{view:?} {mm}: {at} {exact}");
            }
            for pair in band.along_mm.windows(2).zip(band.points.windows(2)) {
                let middle = place.point(line.point_at(f64::midpoint(pair.0[0], pair.0[1])));
                let off = middle.distance((pair.1[0] + pair.1[1]) / 2.0);
                assert!(off < 0.3, "{view:?} strays by {off}");
            }
        }
    }
}
