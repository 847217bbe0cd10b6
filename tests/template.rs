//! The full-size template against lengths worked out by hand. How it comes out on paper is measured in
//! the PDF by `tests/read_back_pdf.py`.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use std::f64::consts::PI;

use common::build::{
    OUTSIDE_MM, SOCKET_MM, bay, clamp, corner, elbow_end, port, run, solved, straight_end,
};
use glam::{DVec2, DVec3};
use hosewright::checks::{Severity, check};
use hosewright::drawing::{Item, Shade};
use hosewright::engine::RunSolution;
use hosewright::engine::solve_whole;
use hosewright::export::{FLAT_WITHIN_MM, NamedPlace, Template, TemplateView};
use hosewright::model::{Bay, Via};
use hosewright::report::sheet::SheetInfo;
use hosewright::units::LengthUnit;

/// The template of the first hose.
fn template_of(bay: &Bay) -> Template {
    Template::new(&common::answer(bay), 0, SheetInfo::default()).expect("solved")
}

fn made(from: (DVec3, DVec3), to: (DVec3, DVec3), via: Vec<Via>) -> (Bay, RunSolution, Template) {
    let ports = vec![port("a", from.0, from.1), port("b", to.0, to.1)];
    let bay = bay(ports, run(straight_end("a", None), straight_end("b", None), via));
    let solution = solved(&bay);
    let template = template_of(&bay);
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

fn flat(template: &Template) -> &TemplateView {
    assert!(template.wire.is_none(), "flat");
    &template.view
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
        let view = flat(&template);
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
    let view = flat(&template);
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

/// Issue 13, section 3: a route in space is a bend table and a strip, not nine pages of projections.
#[test]
fn a_route_in_space_is_a_bend_table_and_a_strip() {
    let to = DVec3::new(600.0, 300.0, 400.0);
    let via = vec![corner(600.0, 0.0, 0.0), corner(600.0, 300.0, 0.0)];
    let (_, solution, template) = made((DVec3::ZERO, DVec3::X), (to, DVec3::NEG_Z), via);
    let wire = template.wire.as_ref().expect("not flat");
    // 600 less a tangent of 100; a quarter of a circle of 100 is 157.08; 300 less two tangents.
    assert_eq!(wire.rows[0], ["bend 1", "500", "–", "90°", "100", "500", "657"]);
    assert_eq!(wire.rows[1], ["bend 2", "100", "+90°", "90°", "100", "757", "914"]);
    assert_eq!(wire.rows[2], ["to cut end B", "300", "", "", "", "", "1214"]);
    assert_eq!(wire.headings[1], "straight, mm");
    assert!(wire.accuracy.starts_with("Rounded to 1 mm and 1°. Bent by the table, the wire"));
    let how = wire.how.join(" ");
    for words in ["+ clockwise", "look along it to end B", "drawn route"] {
        assert!(how.contains(words), "{how}");
    }
    // The strip is as long as the wire, at full size, with its marks where the table has them.
    let strip = &template.view;
    assert!((length(&line(strip)) - solution.centreline_mm).abs() < 1e-9);
    let from_a = |begins: &str| place(strip, begins).at.distance(place(strip, "A, cut end").at);
    assert!((from_a("bend 1 from 500 mm: 90°, R 100") - 500.0).abs() < 1e-9);
    assert!((from_a("bend 1 to") - (500.0 + PI * 50.0)).abs() < 1e-9);
    assert!(
        (from_a("bend 2 from 757 mm: turn +90°, 90°, R 100") - (600.0 + PI * 50.0)).abs() < 1e-9
    );
    assert!((from_a("B, cut end") - solution.centreline_mm).abs() < 1e-9);
    assert!(place(strip, "A, cut end").at.x == place(strip, "B, cut end").at.x, "up the page");
}

#[test]
fn the_table_of_a_bay_in_inches_is_in_sixteenths() {
    let inch = 25.4;
    let to = DVec3::new(24.0, 12.0, 16.0) * inch;
    let via = vec![at(DVec3::X * 24.0 * inch), at(DVec3::new(24.0, 12.0, 0.0) * inch)];
    let ports = vec![port("a", DVec3::ZERO, DVec3::X), port("b", to, DVec3::NEG_Z)];
    let mut run = run(straight_end("a", None), straight_end("b", None), via);
    run.radius_mm = Some(4.0 * inch + 0.1);
    let mut bay = bay(ports, run);
    bay.show_units = LengthUnit::Inch;
    let made = template_of(&bay);
    let wire = made.wire.expect("not flat");
    assert_eq!(wire.rows[1][..5], ["bend 2", "4", "+90°", "90°", "4"]);
    assert!(wire.accuracy.starts_with("Rounded to 1/16 in and 1°. "), "{}", wire.accuracy);
    assert!(wire.accuracy.ends_with(" in of the drawn route.") && !wire.accuracy.contains("mm"));
}

#[test]
fn a_hair_off_its_plane_is_flat_and_more_is_not() {
    let is_flat = |off: f64| {
        let via = vec![corner(300.0, 0.0, 0.0), corner(300.0, 400.0, off)];
        let to = DVec3::new(700.0, 400.0, 0.0);
        made((DVec3::ZERO, DVec3::X), (to, DVec3::NEG_X), via).2.wire.is_none()
    };
    assert!(is_flat(0.5 * FLAT_WITHIN_MM));
    assert!(!is_flat(20.0));
}

fn place<'a>(view: &'a TemplateView, begins: &str) -> &'a NamedPlace {
    let found: Vec<&NamedPlace> =
        view.places.iter().filter(|place| place.words.starts_with(begins)).collect();
    assert_eq!(found.len(), 1, "{begins}: {:?}", view.places);
    found[0]
}

/// A straight hose of 400 mm along X between two ends.
fn between(
    from: hosewright::model::RunEnd,
    to: hosewright::model::RunEnd,
    seats: [DVec3; 2],
    ways: [DVec3; 2],
) -> Template {
    let ports = vec![port("a", seats[0], ways[0]), port("b", seats[1], ways[1])];
    let bay = bay(ports, run(from, to, vec![]));
    let solution = solved(&bay);
    assert!((solution.centreline_mm - 400.0).abs() < 1e-6, "{}", solution.centreline_mm);
    template_of(&bay)
}

#[test]
fn seats_sockets_and_clamps_are_where_they_are() {
    let along = 21.0;
    let end = |name| elbow_end(name, None, 0.0, 0.0, (along, 0.0));
    let seats = [DVec3::ZERO, DVec3::X * (400.0 + 2.0 * along)];
    let template = between(end("a"), end("b"), seats, [DVec3::X, DVec3::NEG_X]);
    let view = flat(&template);
    let apart = |p: &str, q: &str| place(view, p).at.distance(place(view, q).at);
    assert!((apart("A, cut end", "B, cut end") - 400.0).abs() < 1e-6);
    assert!((apart("seat A", "A, cut end") - along).abs() < 1e-6);
    assert!((apart("seat B", "B, cut end") - along).abs() < 1e-6);
    assert!((apart("mouth of socket A", "A, cut end") - SOCKET_MM).abs() < 1e-6);
    assert!((apart("mouth of socket B", "B, cut end") - SOCKET_MM).abs() < 1e-6);
    assert!(place(view, "seat A").words.contains("set-back 21 mm"), "{:?}", view.places);
    // Words do not stand over the hose: at least beside its edge.
    assert!(view.places.iter().all(|place| place.gap_mm > OUTSIDE_MM / 2.0));
}

// Both elbows in one plane: it is the paper, and the seats are at their full distance.
#[test]
fn a_straight_hose_lies_in_the_plane_of_its_elbows() {
    let (along, across) = (21.0, 25.0);
    // The reference direction of a port along −Z is +X: clock 0 sends the hose that way.
    let end = |name, clock| elbow_end(name, None, 90.0, clock, (along, across));
    let ways = [DVec3::NEG_Y, DVec3::NEG_Y];
    let seats = [DVec3::ZERO, DVec3::X * (400.0 + 2.0 * across)];
    // Of a port along −Y, u = Z and t × u = −X: 270° goes along +X, 90° along −X.
    let template = between(end("a", 270.0), end("b", 90.0), seats, ways);
    let view = flat(&template);
    for letter in ["A", "B"] {
        let seat = place(view, &format!("seat {letter}"));
        let cut = place(view, &format!("{letter}, cut end"));
        assert!((seat.at.distance(cut.at) - along.hypot(across)).abs() < 1e-6, "{seat:?}");
        assert!(seat.words.contains("90° elbow, set-back 25 mm"), "{}", seat.words);
        assert!(!seat.words.contains("this paper"), "{}", seat.words);
    }
}

// One elbow in the plane of the bend, the other square to it: the paper says how far off it stands.
#[test]
fn a_seat_off_the_paper_says_how_far() {
    let (along, across) = (21.0, 25.0);
    let from = elbow_end("a", None, 90.0, 270.0, (along, across));
    // Of a port along Z, u = X and t × u = Y: 180° goes along −X.
    let to = elbow_end("b", None, 90.0, 180.0, (along, across));
    let seats = [DVec3::new(-across, along, 0.0), DVec3::new(400.0 + across, 0.0, -along)];
    let template = between(from, to, seats, [DVec3::NEG_Y, DVec3::Z]);
    let view = flat(&template);
    let told: Vec<&str> = view
        .places
        .iter()
        .filter(|place| place.words.starts_with("seat") && place.words.contains("this paper"))
        .map(|place| place.words.as_str())
        .collect();
    assert!(!told.is_empty() && told.iter().all(|words| words.contains("21 mm")), "{told:?}");
}

#[test]
fn a_clamp_tells_its_mark_on_the_real_hose() {
    let ports = vec![port("a", DVec3::ZERO, DVec3::X), port("b", DVec3::X * 600.0, DVec3::NEG_X)];
    let via = vec![clamp(DVec3::X * 200.0, DVec3::X, 10.0, None)];
    let mut run = run(straight_end("a", None), straight_end("b", None), via);
    run.slack_pct = Some(5.0);
    let bay = bay(ports, run);
    let template = template_of(&bay);
    let view = flat(&template);
    let clamp = place(view, "clamp");
    assert!((clamp.at.distance(place(view, "A, cut end").at) - 200.0).abs() < 1e-6, "as drawn");
    // 5 % of 600 is 30, in the free spans from socket mouth to clamp (170) and from clamp to mouth (370).
    let mark = 200.0 + 30.0 * 170.0 / 540.0;
    let words = format!("the hose’s mark at {mark:.1} mm from A");
    assert!(clamp.words.contains(&words), "{} not {words}", clamp.words);
}

#[test]
fn what_fails_and_what_is_not_tested_is_on_the_paper() {
    // A corner far too near both ends.
    let ports = vec![
        port("a", DVec3::ZERO, DVec3::X),
        port("b", DVec3::new(120.0, 90.0, 0.0), DVec3::NEG_Y),
    ];
    let tight = bay(
        ports,
        run(straight_end("a", None), straight_end("b", None), vec![corner(120.0, 0.0, 0.0)]),
    );
    let ports = vec![port("a", DVec3::ZERO, DVec3::X), port("b", DVec3::X * 600.0, DVec3::NEG_X)];
    let mut slack = run(straight_end("a", None), straight_end("b", None), vec![]);
    slack.slack_pct = Some(5.0);
    let fine = bay(ports, slack);
    for (bay, is_tight) in [(tight, true), (fine, false)] {
        let routing = &bay.routings[0];
        let whole = solve_whole(&bay, routing);
        let findings = check(&bay, routing, &whole);
        let made = template_of(&bay);
        let fails = findings.iter().filter(|finding| finding.severity == Severity::Fail);
        let fails: Vec<&str> = fails.map(|finding| finding.message.as_str()).collect();
        assert_eq!(fails.is_empty(), !is_tight, "{fails:?}");
        let tells = |fault: &&str| made.stop.starts_with(*fault);
        assert!(fails.is_empty() || fails.iter().any(tells), "{}", made.stop);
        assert_eq!(made.stop.is_empty(), !is_tight, "{}", made.stop);
        assert!(made.untested.starts_with("not tested"), "{}", made.untested);
    }
}
