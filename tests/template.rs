//! The full-size template against lengths worked out by hand. How it comes out on paper is measured in
//! the PDF by `tests/read_back_pdf.py`.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use std::f64::consts::PI;

use common::build::{bay, corner, port, run, solved, straight_end};
use glam::{DVec2, DVec3};
use hosewright::engine::RunSolution;
use hosewright::export::{FLAT_WITHIN_MM, Item, Shade, SheetInfo, Template, TemplateView};
use hosewright::model::{Bay, Via};

fn made(from: (DVec3, DVec3), to: (DVec3, DVec3), via: Vec<Via>) -> (Bay, RunSolution, Template) {
    let ports = vec![port("a", from.0, from.1), port("b", to.0, to.1)];
    let bay = bay(ports, run(straight_end("a", None), straight_end("b", None), via));
    let solution = solved(&bay);
    let option = &bay.options[0];
    let template = Template::new(&bay, option, &option.runs[0], &solution, SheetInfo::default());
    (bay, solution, template)
}

fn at(p: DVec3) -> Via {
    corner(p.x, p.y, p.z)
}

/// The centre line as it is drawn.
fn line(view: &TemplateView) -> Vec<DVec2> {
    let lines = view.drawing.items.iter().filter_map(|item| match item {
        Item::Path { lines, stroke: Some(stroke), .. } if stroke.shade == Shade::Accent => {
            lines.first()
        }
        _ => None,
    });
    let lines: Vec<_> = lines.collect();
    assert_eq!(lines.len(), 1);
    lines[0].clone()
}

fn length(points: &[DVec2]) -> f64 {
    points.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
}

#[test]
fn a_straight_run_is_as_long_on_paper_in_any_direction() {
    for way in [DVec3::X, DVec3::NEG_Y, DVec3::Z, DVec3::new(2.0, -3.0, 6.0) / 7.0] {
        let at = DVec3::new(300.0, -40.0, 900.0);
        let (_, solution, template) = made((at, way), (at + way * 700.0, -way), vec![]);
        assert!((solution.centreline_mm - 700.0).abs() < 1e-9);
        let [view] = template.views.as_slice() else { panic!("{way}: one view") };
        assert!((length(&line(view)) - 700.0).abs() < 1e-6, "{way}");
        assert!((view.shown_mm - 700.0).abs() < 1e-6);
        // Up the page, A at the top.
        let (first, last) = (line(view)[0], line(view)[1]);
        assert!((first.x - last.x).abs() < 1e-6 && first.y < last.y, "{way}");
    }
}

#[test]
fn a_bend_in_a_tilted_plane_is_drawn_true() {
    // A quarter turn of radius 100 (the hose's limit) in the plane of `u` and `v`.
    let (u, v) = (DVec3::new(2.0, 3.0, 6.0) / 7.0, DVec3::new(3.0, -6.0, 2.0) / 7.0);
    let via = vec![at(u * 400.0)];
    let (_, solution, template) = made((DVec3::ZERO, u), (u * 400.0 + v * 500.0, -v), via);
    let wanted = 300.0 + 400.0 + PI * 50.0;
    assert!((solution.centreline_mm - wanted).abs() < 1e-6, "{}", solution.centreline_mm);
    let [view] = template.views.as_slice() else { panic!("one view") };
    let points = line(view);
    assert!((view.shown_mm - wanted).abs() < 1e-6);
    assert!((length(&points) - wanted).abs() < 0.02, "{}", length(&points));
    // From end to end as far apart as in the bay.
    let apart = points[0].distance(*points.last().unwrap());
    assert!((apart - 400.0_f64.hypot(500.0)).abs() < 1e-6, "{apart}");
    // Everything is inside the drawing, with the words.
    let size = DVec2::new(view.drawing.width_mm, view.drawing.height_mm);
    assert!(points.iter().all(|p| p.cmpge(DVec2::ZERO).all() && p.cmple(size).all()));
}

#[test]
fn a_route_in_space_has_three_views_each_as_short_as_it_says() {
    let to = DVec3::new(600.0, 300.0, 400.0);
    let via = vec![corner(600.0, 0.0, 0.0), corner(600.0, 300.0, 0.0)];
    let (_, solution, template) = made((DVec3::ZERO, DVec3::X), (to, DVec3::NEG_Z), via);
    assert_eq!(template.views.len(), 3);
    for (view, name) in template.views.iter().zip(["plan", "side", "front"]) {
        assert!(view.name.starts_with(name), "{}", view.name);
        assert!(view.note.contains("projection"), "{}", view.note);
        assert!((length(&line(view)) - view.shown_mm).abs() < 0.05, "{name}");
        assert!(view.shown_mm < solution.centreline_mm - 100.0, "{name}");
    }
    // In plan: 500 straight, two quarter turns of which the second goes straight down, 100 between.
    let plan = template.views[0].shown_mm;
    assert!((plan - (500.0 + PI * 50.0 + 100.0 + 100.0)).abs() < 0.01, "{plan}");
}

#[test]
fn a_hair_off_its_plane_is_flat_and_more_is_not() {
    let bent = |off: f64| {
        let via = vec![corner(300.0, 0.0, 0.0), corner(300.0, 400.0, off)];
        let to = DVec3::new(700.0, 400.0, 0.0);
        made((DVec3::ZERO, DVec3::X), (to, DVec3::NEG_X), via).2.views.len()
    };
    assert_eq!(bent(0.5 * FLAT_WITHIN_MM), 1);
    assert_eq!(bent(20.0), 3);
}
