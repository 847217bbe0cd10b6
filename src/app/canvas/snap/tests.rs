//! Each snapper, what comes before what, and the third coordinate.

use glam::{DVec2, DVec3, dvec2, dvec3};

use super::fixture::{bay, empty, only_obstacle, only_ports, scene_of};
use super::*;
use crate::app::canvas::camera::View;
use crate::engine::solve_run;
use crate::model::{Shape, Via};
use crate::units::Length;

const PLAN: (View, f64) = (View::Plan, 1.0);

/// Wanted at `raw` in plan at one point a millimetre, Z 0, with a grid that is out of the way.
fn request(scene: &Scene, raw: DVec2) -> SnapRequest<'_> {
    SnapRequest::placing(scene, PLAN, 0.0, raw)
}

fn words(snapped: &Snapped) -> String {
    snapped.words()
}

fn kinds(snapped: &Snapped) -> Vec<Kind> {
    snapped.causes.iter().map(|cause| cause.kind).collect()
}

fn neighbour(at: DVec3, toward: DVec3, kind: NeighbourKind) -> Neighbour {
    Neighbour { at, toward: toward.normalize(), kind, name: "pump".into() }
}

fn before(at: DVec3, toward: DVec3) -> RouteBeside {
    let before = Some(neighbour(at, toward, NeighbourKind::Corner));
    RouteBeside { before, ..RouteBeside::default() }
}

#[test]
fn with_nothing_near_it_lands_on_whole_steps() {
    let scene = empty();
    // Lines of the grid stand at 50 mm.
    let snapped = snap(&request(&scene, dvec2(38.3, 61.4)));
    assert_eq!(snapped, Snapped::free(dvec3(38.0, 61.0, 0.0)));
    let inch = SnapRequest { unit: LengthUnit::Inch, ..request(&scene, dvec2(38.3, 61.4)) };
    let sixteenths = snap(&inch).place / 25.4 * 16.0;
    assert!((sixteenths - sixteenths.round()).length() < 1e-9);
}

#[test]
fn a_coordinate_that_is_not_moved_stays_as_it_was() {
    let scene = empty();
    let from = dvec3(10.25, 20.25, 30.25);
    let request = SnapRequest::moving(&scene, PLAN, from, dvec2(10.3, 35.1));
    assert_eq!(snap(&request).place, dvec3(10.25, 35.0, 30.25));
}

#[test]
fn the_grid_that_is_drawn_catches_close_by_and_in_both_directions() {
    let scene = empty();
    assert_eq!(grid_step_mm(1.0, LengthUnit::Mm), Some(50.0));
    let snapped = snap(&request(&scene, dvec2(53.7, 96.4)));
    assert_eq!(snapped.place, dvec3(50.0, 100.0, 0.0));
    assert_eq!(words(&snapped), "on the 50 mm grid");
    assert_eq!(snapped.causes.len(), 2);
    let far = snap(&request(&scene, dvec2(54.7, 94.4)));
    assert!(far.causes.is_empty());
    // Ten times nearer by: another grid, the same reach on the screen.
    let near = SnapRequest { points_per_mm: 10.0, ..request(&scene, dvec2(5.37, 9.64)) };
    assert_eq!(snap(&near).place, dvec3(5.0, 10.0, 0.0));
}

#[test]
fn on_the_axis_of_a_port_ahead_of_it_only() {
    let toward = dvec3(3.0, 4.0, 0.0);
    let scene = only_ports(&[("filter", dvec3(20.0, 20.0, 0.0), toward)]);
    let raw = dvec2(20.0, 20.0) + dvec2(0.6, 0.8) * 117.3 + dvec2(-0.8, 0.6) * 5.0;
    let snapped = snap(&request(&scene, raw));
    assert_eq!(words(&snapped), "along the axis of filter");
    let off = (snapped.place - dvec3(20.0, 20.0, 0.0)).cross(toward.normalize());
    assert!(off.length() < 1e-9);
    assert_eq!(snapped.causes[0].target, Some(Thing::Port("filter".into())));
    let behind = dvec2(20.0, 20.0) - dvec2(0.6, 0.8) * 117.3;
    assert!(snap(&request(&scene, behind)).causes.iter().all(|c| c.kind != Kind::PortAxis));
}

#[test]
fn an_axis_on_another_height_says_that_it_only_seems_so() {
    let scene = only_ports(&[("filter", dvec3(20.0, 20.0, 90.0), dvec3(3.0, 4.0, 0.0))]);
    let raw = dvec2(20.0, 20.0) + dvec2(0.6, 0.8) * 117.3 + dvec2(-0.8, 0.6) * 5.0;
    assert_eq!(words(&snap(&request(&scene, raw))), "seen along the axis of filter");
}

#[test]
fn where_an_axis_pierces_the_plane_both_coordinates_are_right() {
    let scene = only_ports(&[("filter", dvec3(20.0, 20.0, 90.0), dvec3(0.6, 0.0, -0.8))]);
    let snapped = snap(&request(&scene, dvec2(84.0, 23.0)));
    assert!(snapped.place.abs_diff_eq(dvec3(87.5, 20.0, 0.0), 1e-9), "{}", snapped.place);
    assert_eq!(words(&snapped), "along the axis of filter");
}

#[test]
fn square_to_a_slanted_port_at_its_seat() {
    let toward = dvec3(3.0, 4.0, 0.0).normalize();
    let scene = only_ports(&[("filter", dvec3(20.0, 20.0, 0.0), toward)]);
    let raw = dvec2(20.0, 20.0) + dvec2(-0.8, 0.6) * 83.0 + dvec2(0.6, 0.8) * 3.0;
    let snapped = snap(&request(&scene, raw));
    assert_eq!(words(&snapped), "square to the seat of filter");
    assert!((snapped.place - dvec3(20.0, 20.0, 0.0)).dot(toward).abs() < 1e-9);
}

#[test]
fn level_with_another_thing_in_each_view() {
    let scene = only_ports(&[("filter", dvec3(320.0, 211.0, 77.0), DVec3::Y)]);
    let side = SnapRequest::placing(&scene, (View::Side, 1.0), 5.0, dvec2(220.3, 72.0));
    let snapped = snap(&side);
    assert_eq!(snapped.place, dvec3(220.0, 5.0, 77.0));
    assert_eq!(words(&snapped), "level with filter");
    let guide = snapped.causes[0].guides[0];
    assert_eq!(guide, [dvec3(320.0, 211.0, 77.0), snapped.place]);
    let plan = snap(&request(&scene, dvec2(315.0, 126.0)));
    assert_eq!(plan.place.x, 320.0);
    assert!(words(&plan).starts_with("in line with filter"), "{}", words(&plan));
}

#[test]
fn in_line_with_the_sides_and_the_middle_of_an_obstacle() {
    let shape = Shape::Box { min: dvec3(10.0, 520.0, 0.0), max: dvec3(123.0, 591.0, 40.0) };
    let scene = only_obstacle(shape);
    for (x, said) in [
        (10.0, "in line with the rear of tray"),
        (66.5, "in line with the middle of tray"),
        (123.0, "in line with the front of tray"),
    ] {
        let snapped = snap(&request(&scene, dvec2(x + 3.0, 472.0)));
        assert_eq!((snapped.place.x, words(&snapped).as_str()), (x, said));
    }
    let front = SnapRequest::placing(&scene, (View::Front, 1.0), 0.0, dvec2(672.0, 37.0));
    assert_eq!(words(&snap(&front)), "level with the top of tray");
}

#[test]
fn the_sides_of_what_is_moved_line_up_too() {
    let shape = Shape::Box { min: dvec3(10.0, 520.0, 0.0), max: dvec3(123.0, 591.0, 40.0) };
    let scene = only_obstacle(shape);
    let half = dvec2(37.0, 21.0);
    for (x, y, said) in [
        (173.0 - 13.0 - 3.0, 472.0, "its rear in line with the front of tray"),
        (232.0, 499.0 + 2.0, "its left side in line with the right side of tray"),
    ] {
        let snapped = snap(&SnapRequest { half, ..request(&scene, dvec2(x, y)) });
        assert_eq!(words(&snapped), said);
        let place = snapped.place;
        assert!(place.x - half.x == 123.0 || place.y + half.y == 520.0, "{place}");
    }
}

#[test]
fn what_moves_along_is_no_target() {
    let scene = only_ports(&[("filter", dvec3(320.0, 211.0, 77.0), DVec3::Y)]);
    let moving = [Thing::Port("filter".into())];
    let request = SnapRequest { moving: &moving, ..request(&scene, dvec2(322.0, 128.0)) };
    assert!(snap(&request).causes.is_empty());
}

#[test]
fn a_thing_off_the_screen_is_no_target() {
    let scene = only_ports(&[("filter", dvec3(322.0, 5000.0, 0.0), DVec3::X)]);
    assert!(snap(&request(&scene, dvec2(324.0, 128.0))).causes.is_empty());
}

#[test]
fn square_to_the_stretch_before_in_space() {
    let (scene, toward) = (empty(), dvec3(2.0, 1.0, 2.0).normalize());
    let route = before(dvec3(10.0, 10.0, 30.0), toward);
    let line = dvec2(10.0, 10.0) + dvec2(2.0, 1.0) * (2.0 * 30.0 / 5.0);
    let raw = line + dvec2(-1.0, 2.0).normalize() * 71.0 + dvec2(2.0, 1.0).normalize() * 4.0;
    let snapped = snap(&SnapRequest { route: Some(&route), ..request(&scene, raw) });
    assert_eq!(words(&snapped), "square to the stretch before");
    assert!((snapped.place - dvec3(10.0, 10.0, 30.0)).dot(toward).abs() < 1e-9);
}

#[test]
fn along_an_axis_and_at_half_a_right_angle() {
    let scene = empty();
    let route = before(dvec3(13.0, 17.0, 0.0), dvec3(3.0, 1.0, 0.0));
    let at = |raw| snap(&SnapRequest { route: Some(&route), ..request(&scene, raw) });
    let along_y = at(dvec2(16.0, 132.0));
    assert_eq!((along_y.place.x, words(&along_y).as_str()), (13.0, "along Y from pump"));
    // 3, 1 turned by 45° to the left is 2, 4.
    let diagonal = at(dvec2(13.0, 17.0) + dvec2(1.0, 2.0) * 53.3 + dvec2(2.0, -1.0));
    assert_eq!(words(&diagonal), "45° to the stretch before");
    let turned = diagonal.place - dvec3(13.0, 17.0, 0.0);
    assert!((turned.angle_between(dvec3(3.0, 1.0, 0.0)).to_degrees() - 45.0).abs() < 1e-9);
}

#[test]
fn no_half_right_angle_where_it_would_only_seem_one() {
    let scene = empty();
    let route = before(dvec3(13.0, 17.0, 50.0), dvec3(3.0, 1.0, 0.0));
    let raw = dvec2(13.0, 17.0) + dvec2(1.0, 2.0) * 37.3 + dvec2(2.0, -1.0);
    let snapped = snap(&SnapRequest { route: Some(&route), ..request(&scene, raw) });
    assert!(!kinds(&snapped).contains(&Kind::Square), "{}", words(&snapped));
}

#[test]
fn straight_on_from_the_stretch_the_end_and_the_clamp_beside() {
    let scene = empty();
    let (at, toward) = (dvec3(13.0, 17.0, 0.0), dvec3(3.0, 1.0, 0.0));
    let raw = dvec2(13.0, 17.0) + dvec2(3.0, 1.0) * 38.3 + dvec2(-1.0, 3.0);
    for (kind, said) in [
        (NeighbourKind::Corner, "straight on from the stretch after"),
        (NeighbourKind::End, "straight on from pump"),
        (NeighbourKind::Clamp, "straight on from pump"),
    ] {
        let after = Some(neighbour(at, toward, kind));
        let route = RouteBeside { after, ..RouteBeside::default() };
        let snapped = snap(&SnapRequest { route: Some(&route), ..request(&scene, raw) });
        assert_eq!(words(&snapped), said);
        assert!((snapped.place - at).cross(toward.normalize()).length() < 1e-9);
    }
    // Behind it the hose would have to turn straight back.
    let raw = dvec2(13.0, 17.0) - dvec2(3.0, 1.0) * 33.3;
    let route = before(at, toward);
    let snapped = snap(&SnapRequest { route: Some(&route), ..request(&scene, raw) });
    assert!(!kinds(&snapped).contains(&Kind::Tangent));
}

#[test]
fn a_clamp_finds_its_neighbour_on_its_own_axis() {
    let scene = empty();
    let own_axis = Some(dvec3(1.0, 3.0, 0.0).normalize());
    let route = RouteBeside { own_axis, ..before(dvec3(13.0, 17.0, 0.0), DVec3::X) };
    let raw = dvec2(13.0, 17.0) - dvec2(1.0, 3.0) * 28.1 + dvec2(3.0, -1.0);
    let snapped = snap(&SnapRequest { route: Some(&route), ..request(&scene, raw) });
    assert_eq!(words(&snapped), "its axis through pump");
}

#[test]
fn two_lines_meet_at_their_crossing() {
    let scene = only_ports(&[
        ("filter", dvec3(10.0, 20.0, 0.0), dvec3(3.0, 4.0, 0.0)),
        ("rail", dvec3(600.0, 140.0, 0.0), DVec3::X),
    ]);
    let snapped = snap(&request(&scene, dvec2(98.0, 145.0)));
    assert!(snapped.place.abs_diff_eq(dvec3(100.0, 140.0, 0.0), 1e-9), "{}", snapped.place);
    assert_eq!(words(&snapped), "along the axis of filter, in line with rail");
}

#[test]
fn one_coordinate_by_alignment_the_other_by_the_grid() {
    let scene = only_ports(&[("filter", dvec3(321.0, 20.0, 0.0), DVec3::X)]);
    let snapped = snap(&request(&scene, dvec2(324.0, 202.0)));
    assert_eq!(snapped.place, dvec3(321.0, 200.0, 0.0));
    assert_eq!(kinds(&snapped), [Kind::Align, Kind::Grid]);
}

#[test]
fn of_causes_equally_near_the_first_of_the_list_wins() {
    // Each 3 mm to one side or the other of the pointer.
    let scene = only_ports(&[("left", dvec3(317.0, 20.0, 0.0), DVec3::Z)]);
    let raw = dvec2(320.0, 128.0);
    let at =
        |route: &RouteBeside| snap(&SnapRequest { route: Some(route), ..request(&scene, raw) });
    let tangent = before(dvec3(323.0, 60.0, 0.0), DVec3::Y);
    assert_eq!(kinds(&at(&tangent)), [Kind::Tangent]);
    let square = before(dvec3(323.0, 60.0, 0.0), DVec3::X);
    assert_eq!(kinds(&at(&square)), [Kind::Square]);
    let axis = only_ports(&[
        ("left", dvec3(317.0, 20.0, 0.0), DVec3::Z),
        ("right", dvec3(323.0, 60.0, 0.0), DVec3::Y),
    ]);
    assert_eq!(kinds(&snap(&request(&axis, raw))), [Kind::PortAxis]);
    // A line of the grid at 300: it reaches half as far, so it counts twice as far.
    let scene = only_ports(&[("left", dvec3(297.0, 20.0, 0.0), DVec3::Z)]);
    let at = |x: f64| kinds(&snap(&request(&scene, dvec2(x, 128.0))));
    assert_eq!(at(299.7), [Kind::Grid]);
    assert_eq!(at(299.0), [Kind::Align]);
}

#[test]
fn what_is_so_comes_before_what_only_seems_so() {
    let scene = only_ports(&[
        ("high", dvec3(323.0, 20.0, 90.0), DVec3::Y),
        ("here", dvec3(317.0, 20.0, 0.0), DVec3::Y),
    ]);
    assert_eq!(words(&snap(&request(&scene, dvec2(320.0, 128.0)))), "along the axis of here");
}

#[test]
fn a_typed_coordinate_is_never_moved() {
    let scene = only_ports(&[("filter", dvec3(10.0, 20.0, 0.0), dvec3(3.0, 4.0, 0.0))]);
    let typed = SnapRequest { fixed: [Some(100.123), None], ..request(&scene, dvec2(98.0, 143.0)) };
    let snapped = snap(&typed);
    assert_eq!(snapped.place.x, 100.123);
    assert!((snapped.place.y - (20.0 + 90.123 / 3.0 * 4.0)).abs() < 1e-9);
    assert_eq!(kinds(&snapped), [Kind::PortAxis]);
    let both = SnapRequest { fixed: [Some(1.1), Some(2.2)], ..request(&scene, dvec2(98.0, 143.0)) };
    assert_eq!(snap(&both), Snapped::free(dvec3(1.1, 2.2, 0.0)));
}

#[test]
fn a_whole_cut_length_on_the_way_of_the_pointer() {
    let scene = empty();
    // The hose goes over the corner from a place on either hand.
    let length =
        |p: DVec3| Some(p.distance(dvec3(-400.0, 0.0, 0.0)) + p.distance(dvec3(400.0, 0.0, 0.0)));
    let from = dvec3(12.0, 61.0, 0.0);
    let way = dvec2(0.2, 1.0).normalize();
    let mut seen = 0;
    for k in 0..400 {
        let raw = dvec2(12.0, 61.0) + way * (5.0 + f64::from(k));
        let request = SnapRequest {
            unit: LengthUnit::Inch,
            cut_length: Some(&length),
            ..SnapRequest::moving(&scene, PLAN, from, raw)
        };
        let snapped = snap(&request);
        let Some(cause) = snapped.causes.iter().find(|c| c.kind == Kind::CutLength) else {
            continue;
        };
        seen += 1;
        let mm = length(snapped.place).unwrap();
        let inches = Length::from_mm(mm).inches();
        assert!((inches - inches.round()).abs() < 1e-6, "{inches}");
        assert_eq!(cause.words, format!("cut {} in", inches.round()));
        assert_eq!(Length::from_mm(mm).bench_inch(), format!("{}", inches.round()));
        if snapped.causes.len() == 1 {
            let off = (snapped.place.truncate() - dvec2(12.0, 61.0)).perp_dot(way);
            assert!(off.abs() < 1e-9, "on the way");
        }
    }
    assert!(seen > 20, "{seen}");
}

#[test]
fn a_whole_cut_length_along_a_line_and_in_few_trials() {
    let scene = only_ports(&[("filter", dvec3(0.0, 0.0, 0.0), dvec3(3.0, 4.0, 0.0))]);
    let asked = std::cell::Cell::new(0);
    let length = |p: DVec3| {
        asked.set(asked.get() + 1);
        Some(500.0 + 1.3 * p.length())
    };
    let mut seen = 0;
    for k in 0..60 {
        asked.set(0);
        let raw = dvec2(3.0, 4.0) * (30.0 + f64::from(k) * 0.4) + dvec2(-0.8, 0.6) * 1.5;
        let request = SnapRequest {
            cut_length: Some(&length),
            ..SnapRequest::moving(&scene, PLAN, dvec3(5.0, 0.0, 0.0), raw)
        };
        let snapped = snap(&request);
        assert!(asked.get() <= MOST_TRIALS, "{}", asked.get());
        if kinds(&snapped) == [Kind::PortAxis, Kind::CutLength] {
            seen += 1;
            let mm = 500.0 + 1.3 * snapped.place.length();
            assert!((mm / 20.0 - (mm / 20.0).round()).abs() < 1e-7, "{mm}");
        }
    }
    assert!(seen > 5, "{seen}");
}

#[test]
fn the_cut_length_is_that_of_the_bay_with_the_thing_there() {
    let bay = bay();
    let run = &bay.routings[0].runs[0];
    let to = dvec3(340.0, 33.0, 111.0);
    let via = Thing::Via { run: run.id.clone(), via: 0 };
    let trial = CutLengthTrial::new(&bay, run, &via).unwrap();
    let mut moved = bay.clone();
    *moved.routings[0].runs[0].via[0].at_mut() = to;
    let solved = solve_run(&moved, &moved.routings[0].runs[0]).unwrap();
    assert_eq!(trial.cut_length(to), Some(solved.cut_length_mm));

    let port = Thing::Port(run.to.port.clone());
    let trial = CutLengthTrial::new(&bay, run, &port).unwrap();
    let mut moved = bay.clone();
    moved.ports.iter_mut().find(|p| p.id == run.to.port).unwrap().at = to;
    let solved = solve_run(&moved, &moved.routings[0].runs[0]).unwrap();
    assert_eq!(trial.cut_length(to), Some(solved.cut_length_mm));
    assert!(CutLengthTrial::new(&bay, run, &Thing::Port("nowhere".into())).is_none());
}

#[test]
fn the_neighbours_of_a_corner_on_its_hose() {
    let bay = bay();
    let run = &bay.routings[0].runs[0];
    let solved = solve_run(&bay, run).unwrap();
    let beside = RouteBeside::of(&bay, run, &solved, 0).unwrap();
    let (before, after) = (beside.before.unwrap(), beside.after.unwrap());
    assert_eq!((before.kind, before.toward), (NeighbourKind::End, DVec3::X));
    assert_eq!(before.name, "pump");
    assert_eq!((after.kind, after.toward), (NeighbourKind::Clamp, -DVec3::X));
    assert_eq!(after.name, "clamp 1");
    // Beside the clamp, towards the corner.
    assert!(after.at.x < 650.0 && after.at.y == 160.0);
    let clamp = RouteBeside::of(&bay, run, &solved, 1).unwrap();
    assert_eq!(clamp.own_axis, Some(DVec3::X));
    let corner = clamp.before.unwrap();
    assert_eq!((corner.kind, corner.at), (NeighbourKind::Corner, run.via[0].at()));
    assert!(RouteBeside::of(&bay, run, &solved, 9).is_none());
}

/// A corner that is square to an end whose straight is found really makes a quarter turn there.
#[test]
fn square_to_an_end_with_its_lead_found_is_a_quarter_turn() {
    let mut bay = bay();
    bay.routings[0].runs.truncate(1);
    bay.routings[0].runs[0].via.truncate(1);
    let run = bay.routings[0].runs[0].clone();
    let solved = solve_run(&bay, &run).unwrap();
    let beside = RouteBeside::of(&bay, &run, &solved, 0).unwrap();
    let place = beside.before.unwrap().at + dvec3(0.0, 400.0, 0.0);
    let mut moved = run.clone();
    *moved.via[0].at_mut() = place;
    let solved = solve_run(&bay, &moved).unwrap();
    assert!(matches!(moved.via[0], Via::Corner(_)));
    let first = solved.bends()[0];
    assert!((first.angle_deg - 90.0).abs() < 1e-6, "{}", first.angle_deg);
}

#[test]
fn the_third_coordinate_comes_from_what_is_under_the_pointer() {
    let bay = bay();
    let scene = scene_of(&bay);
    let plan = |x, y| third_coordinate(&scene, View::Plan, dvec2(x, y), 1.0, Some(33.0));
    let rail = plan(996.0, 203.0);
    assert_eq!((rail.mm, rail.words.as_str()), (150.0, "Z 150 mm, level with rail"));
    assert_eq!(rail.target, Some(Thing::Port("rail".into())));
    assert_eq!(plan(651.0, 163.0).words, "Z 150 mm, level with clamp 1 of Fuel feed");
    let on_hose = scene.hoses[0].line.point_at(80.0);
    let hose = plan(on_hose.x, on_hose.y + 3.0);
    assert!((hose.mm - on_hose.z).abs() < 0.5, "{} {}", hose.mm, on_hose.z);
    assert!(hose.words.ends_with("on Fuel feed"), "{}", hose.words);
    assert_eq!(plan(400.0, -140.0).words, "Z 60 mm, on manifold");
    assert_eq!(plan(80.0, -140.0).words, "Z 33 mm, as before");
    let unused = third_coordinate(&scene, View::Plan, dvec2(80.0, -140.0), 1.0, None);
    assert!(unused.words.ends_with("middle of the bay"), "{}", unused.words);
    let side = third_coordinate(&scene, View::Side, dvec2(500.0, -45.0), 1.0, None);
    assert_eq!(side.words, "Y \u{2212}150 mm, on manifold", "seen from the right");
    let nothing = third_coordinate(&empty(), View::Front, DVec2::ZERO, 1.0, None);
    assert_eq!((nothing.mm, nothing.words.as_str()), (0.0, "X 0 mm, the bay is empty"));
}

#[test]
fn an_obstacle_is_met_at_its_face_nearest_the_viewer() {
    let near = |shape: Shape, raw: DVec2| {
        third_coordinate(&only_obstacle(shape), View::Plan, raw, 1.0, Some(-1.0)).mm
    };
    let sphere = || Shape::Sphere { at: dvec3(0.0, 0.0, 10.0), radius: 5.0 };
    assert!((near(sphere(), dvec2(3.0, 0.0)) - 14.0).abs() < 1e-9);
    assert_eq!(near(sphere(), dvec2(6.0, 0.0)), -1.0);
    let lying = || Shape::Cylinder { from: DVec3::ZERO, to: dvec3(100.0, 0.0, 0.0), radius: 5.0 };
    assert!((near(lying(), dvec2(50.0, 3.0)) - 4.0).abs() < 1e-9);
    assert_eq!(near(lying(), dvec2(101.0, 0.0)), -1.0);
    let upright = || Shape::Cylinder { from: dvec3(0.0, 0.0, 7.0), to: DVec3::ZERO, radius: 5.0 };
    assert!((near(upright(), dvec2(3.0, 3.0)) - 7.0).abs() < 1e-9);
    let corners = vec![DVec3::ZERO, dvec3(10.0, 0.0, 0.0), dvec3(0.0, 10.0, 20.0)];
    let mesh = crate::model::Mesh::new(corners, vec![[0, 2, 1]]);
    let mesh = || Shape::Mesh {
        file: "m.stl".into(),
        scale: 1.0,
        at: DVec3::ZERO,
        mesh: std::sync::Arc::new(mesh.clone()),
    };
    assert!((near(mesh(), dvec2(2.0, 5.0)) - 10.0).abs() < 1e-9);
    assert_eq!(near(mesh(), dvec2(9.0, 9.0)), -1.0);
}

#[test]
fn a_request_that_is_not_finite_stays_where_it_was() {
    let scene = scene_of(&bay());
    let from = dvec3(1.0, 2.0, 3.0);
    for raw in [dvec2(f64::NAN, 0.0), dvec2(0.0, f64::INFINITY)] {
        let snapped = snap(&SnapRequest::moving(&scene, PLAN, from, raw));
        assert_eq!(snapped, Snapped::free(from));
    }
    let scaled = SnapRequest::moving(&scene, (View::Plan, 0.0), from, DVec2::ZERO);
    assert_eq!(snap(&scaled), Snapped::free(from));
}

use super::super::layout::grid_step_mm;
