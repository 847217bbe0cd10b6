use glam::{dvec2, dvec3};

use super::super::camera::Outlook;
use super::*;
use crate::app::canvas::camera::View;
use crate::app::canvas::scene;
use crate::app::fixture;
use crate::engine::solve_routing;

const AREA: Area = Area { min: DVec2::new(20.0, 30.0), max: DVec2::new(720.0, 430.0) };

fn drawn(from: Outlook) -> (Scene, Picture) {
    let bay = fixture::bay();
    let routing = &bay.routings[0];
    let scene = scene::build(&bay, routing, &solve_routing(&bay, routing), &[]);
    let mut camera = TurnCamera::default();
    camera.look_from(from);
    camera.fit(scene.bounds.unwrap(), AREA);
    let mut picture = Picture::default();
    picture.draw(&scene, camera, AREA, 1.0);
    (scene, picture)
}

#[test]
fn a_hose_is_found_where_it_is_seen_and_says_how_far_along() {
    for (from, ..) in Outlook::ALL {
        let (scene, picture) = drawn(from);
        let hose = &scene.hoses[0];
        let mut found = 0;
        for k in 1..20 {
            let mm = hose.line.length() * f64::from(k) / 20.0;
            let at = picture.to_screen(hose.line.point_at(mm));
            if picture.under(at) == Some(Of::Hose(0)) {
                found += 1;
                let along = picture.along(0, at).unwrap();
                // Seen from its end a hose has many places at one point.
                let seen = picture.to_screen(hose.line.point_at(along));
                // As thick as a socket, and the little beside it that counts as on it.
                let thick = 1.2 * hose.half_mm * picture.camera().points_per_mm + 4.0;
                assert!(seen.distance(at) < thick, "{from:?} {mm} {along}");
            }
        }
        assert!(found >= 5, "{from:?}: {found} of 19");
        assert_eq!(picture.under(AREA.min + 2.0), None);
    }
}

#[test]
fn where_two_hoses_cross_the_nearer_one_is_seen() {
    let (scene, picture) = drawn(Outlook::View(View::Plan));
    let [a, b] = [0, 1].map(|k: usize| scene.hoses[k].line.sampled(0.5));
    let mut crossings = 0;
    for (i, pair) in a.windows(2).enumerate() {
        for other in b.windows(2) {
            let Some(at) = crossing(
                [pair[0], pair[1]].map(|p| picture.to_screen(p)),
                [other[0], other[1]].map(|p| picture.to_screen(p)),
            ) else {
                continue;
            };
            crossings += 1;
            let nearer = usize::from(a[i].z <= other[0].z);
            assert_eq!(picture.under(at), Some(Of::Hose(nearer)));
        }
    }
    assert!(crossings > 0, "the fixture's hoses cross in plan");
}

fn crossing([a, b]: [DVec2; 2], [c, d]: [DVec2; 2]) -> Option<DVec2> {
    let (r, s) = (b - a, d - c);
    let bend = r.perp_dot(s);
    let (t, u) = ((c - a).perp_dot(s) / bend, (c - a).perp_dot(r) / bend);
    ((0.0..1.0).contains(&t) && (0.0..1.0).contains(&u)).then(|| a + t * r)
}

#[test]
fn lines_behind_an_obstacle_are_left_out() {
    // From ahead the shaft lies behind nothing; from the right the manifold stands before it.
    let (scene, side) = drawn(Outlook::View(View::Side));
    let shaft = scene.obstacles.iter().position(|obstacle| obstacle.name == "shaft").unwrap();
    let manifold = scene.obstacles.iter().position(|obstacle| obstacle.name == "manifold").unwrap();
    let (lo, hi) = scene.obstacles[manifold].shape.bounds();
    let [p, q] = [lo, hi].map(|p| side.to_screen(p));
    let hidden = Area { min: p.min(q), max: p.max(q) }.grown(-2.0);
    let of_shaft = side.lines.iter().filter(|line| line.of == Of::Obstacle(shaft));
    let points: Vec<DVec2> = of_shaft.flat_map(|line| line.points.clone()).collect();
    assert!(!points.is_empty(), "it reaches past the manifold");
    assert!(points.iter().all(|p| !hidden.contains(*p)));
}

#[test]
fn a_line_is_cut_to_the_area() {
    let (from, to) = inside(AREA, dvec2(-980.0, 100.0), dvec2(1020.0, 100.0)).unwrap();
    assert!((from - 0.5).abs() < 1e-9 && (to - 0.85).abs() < 1e-9);
    assert_eq!(inside(AREA, DVec2::ZERO, dvec2(0.0, 900.0)), None);
}

#[test]
fn ports_are_found_under_the_pointer() {
    let (scene, picture) = drawn(Outlook::Corner);
    for spot in &picture.ports {
        assert_eq!(picture.port_under(spot.at, 8.0), Some(spot.index));
        assert!(spot.toward.length() <= 1.0 + 1e-9);
    }
    assert_eq!(picture.ports.len(), scene.ports.len());
    assert_eq!(picture.port_under(dvec3(0.0, 0.0, 0.0).truncate(), 8.0), None);
}
