//! Names on random bays: none can be taken for that of something else, and none covers another.

use glam::{DVec2, DVec3, dvec2};
use proptest::prelude::*;

use super::*;
use crate::app::canvas::camera::Cameras;
use crate::app::canvas::scene::{self, Scene};
use crate::app::fixture;
use crate::engine::solve_routing;
use crate::model::{Bay, Nature, Obstacle, Port, Shape};

fn measure(text: &str) -> DVec2 {
    dvec2(6.5 * text.chars().count() as f64, 15.0)
}

fn place() -> impl Strategy<Value = DVec3> {
    // On a coarse grid now and then, so that things lie over each other in a view.
    let coordinate = prop_oneof![(-9..9_i32).prop_map(|k| 60.0 * f64::from(k)), -500.0..500.0];
    [coordinate.clone(), coordinate.clone(), coordinate].prop_map(DVec3::from_array)
}

fn obstacle() -> impl Strategy<Value = (Nature, Shape)> {
    let nature = (0..4_usize).prop_map(|k| Nature::ALL[k].0);
    let size = [10.0..400.0, 10.0..400.0, 10.0..400.0_f64].prop_map(DVec3::from_array);
    let shape = prop_oneof![
        (place(), size).prop_map(|(min, size)| Shape::Box { min, max: min + size }),
        (place(), place(), 8.0..60.0_f64).prop_map(|(from, to, radius)| {
            let to = if from == to { from + DVec3::X } else { to };
            Shape::Cylinder { from, to, radius }
        }),
        (place(), 8.0..120.0_f64).prop_map(|(at, radius)| Shape::Sphere { at, radius }),
    ];
    (nature, shape)
}

prop_compose! {
    fn random_bay()(
        ports in prop::collection::vec((place(), place()), 1..14),
        obstacles in prop::collection::vec(obstacle(), 0..9),
        from in place(), to in place(),
    ) -> Bay {
        let mut bay = fixture::bay();
        bay.ports[0].at = from;
        bay.ports[1].at = to;
        for (k, (at, toward)) in ports.into_iter().enumerate() {
            let toward = if toward.length() < 1.0 { DVec3::X } else { toward };
            let name = format!("Port of the thing {k}");
            let id = format!("p{k}");
            bay.ports.push(Port { id, name, at, toward, ..bay.ports[0].clone() });
        }
        let like = bay.obstacles[0].clone();
        bay.obstacles.extend(obstacles.into_iter().enumerate().map(|(k, (nature, shape))| {
            Obstacle { id: format!("o{k}"), name: format!("Thing {k}"), nature, shape, ..like.clone() }
        }));
        bay
    }
}

/// A rectangle and a point: how far apart.
fn apart(area: Area, at: DVec2) -> f64 {
    let out = (area.min - at).max(at - area.max).max(DVec2::ZERO);
    out.length()
}

/// The least distance of a rectangle and a closed outline, by sampling both; 0 where they meet.
fn apart_from_outline(area: Area, shape: &ObstacleShape) -> f64 {
    let steps = 24;
    let share = |k: i32| f64::from(k) / f64::from(steps);
    let inside = (0..=steps).any(|x| {
        (0..=steps).any(|y| shape.contains(area.min + dvec2(share(x), share(y)) * area.size()))
    });
    if inside {
        return 0.0;
    }
    let Outline::Convex(points) = &shape.outline else { return f64::INFINITY };
    let sides = points.iter().zip(points.iter().cycle().skip(1));
    let places = sides.flat_map(|(a, b)| (0..=400).map(|k| a.lerp(*b, f64::from(k) / 400.0)));
    places.map(|at| apart(area, at)).fold(f64::INFINITY, f64::min)
}

/// All marks with an edge: what they mark, their middle and radius.
fn marks(layout: &ViewLayout, naming: &Naming<'_>) -> Vec<(Option<Named>, DVec2, f64)> {
    let ports = layout.ports.iter();
    let mut all: Vec<_> =
        ports.map(|port| (Some(Named::Port(port.index)), port.at, port.radius)).collect();
    for (index, via) in layout.vias.iter().enumerate() {
        if via.clamp.is_some() || via.thing.run() == naming.run {
            all.push((Some(Named::Via(index)), via.at, via.radius()));
        }
    }
    let shown = layout.markers.iter().filter(|marker| marker.is_shown(naming.finding));
    all.extend(shown.map(|marker| (None, marker.at, MARKER_RADIUS)));
    all.retain(|(_, at, radius)| layout.area.meets(Area { min: *at, max: *at }.grown(*radius)));
    all
}

fn check(scene: &Scene, layout: &ViewLayout, naming: &Naming<'_>) -> Result<(), TestCaseError> {
    let marks = marks(layout, naming);
    for (k, label) in layout.labels.iter().enumerate() {
        let said = format!("{:?} {:?} {:?}", layout.view, label.text, label.area);
        prop_assert!(layout.area.contains(label.area.min) && layout.area.contains(label.area.max));
        for other in &layout.labels[k + 1..] {
            prop_assert!(!label.area.meets(other.area), "{said} over {:?}", other.text);
        }
        for (of, at, radius) in &marks {
            let gap = apart(label.area, *at) - radius;
            prop_assert!(gap > 0.0, "{said} covers {of:?}");
        }
        let own = marks.iter().find(|(of, _, _)| *of == Some(label.of));
        let own_shape = match label.of {
            Named::Obstacle(index) => layout.obstacles.iter().position(|s| s.index == index),
            _ => None,
        };
        if let Some([from, to]) = label.leader {
            // It leads from what is named to the name.
            prop_assert!(apart(label.area, to) < 1e-6, "{said}");
            let on_it = match (own, own_shape) {
                (Some((_, at, radius)), _) => from.distance(*at) <= radius + 1e-6,
                (None, Some(k)) => layout.obstacles[k].contains(from),
                (None, None) => false,
            };
            prop_assert!(on_it, "{said} leads from elsewhere");
            continue;
        }
        let own_gap = match (own, own_shape) {
            (Some((_, at, radius)), _) => apart(label.area, *at) - radius,
            (None, Some(k)) => apart_from_outline(label.area, &layout.obstacles[k]),
            (None, None) => return Err(TestCaseError::fail(format!("{said} names nothing"))),
        };
        for (of, at, radius) in &marks {
            let gap = apart(label.area, *at) - radius;
            prop_assert!(*of == Some(label.of) || gap > own_gap, "{said}: nearer to {of:?}");
        }
        let Some(k) = own_shape else { continue };
        let is_inside = own_gap == 0.0;
        for (j, other) in layout.obstacles.iter().enumerate().filter(|(j, _)| *j != k) {
            // What is hidden behind the surface that a name stands on does not count.
            let gap = if is_inside && j < k {
                f64::INFINITY
            } else {
                apart_from_outline(label.area, other)
            };
            prop_assert!(gap > own_gap, "{said}: nearer to {}", scene.obstacles[other.index].name);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]
    #[test]
    fn each_name_is_nearest_to_its_own_mark_or_has_a_line_to_it(
        bay in random_bay(), selects in any::<bool>(), more in 0..12_usize,
    ) {
        let routing = &bay.routings[0];
        let solution = solve_routing(&bay, routing);
        let findings = crate::checks::Checker::default().check(&bay, routing, &solution);
        let scene = scene::build(&bay, routing, &solution, &findings);
        let area = Area { min: dvec2(10.0, 20.0), max: dvec2(530.0, 330.0) };
        let mut cameras = Cameras::default();
        cameras.fit(scene.bounds.unwrap(), [area; 3]);
        let mut asked = Vec::new();
        if selects {
            asked.extend([Named::Port(0), Named::Port(1), Named::Via(0)]);
            asked.push(Named::Port(2 + more % (scene.ports.len() - 2)));
            asked.push(Named::Obstacle(more % scene.obstacles.len()));
        }
        asked.dedup();
        let run = selects.then_some(routing.runs[0].id.as_str());
        for view in View::ALL {
            let naming =
                Naming { measure: &measure, asked: &asked, run, finding: None, buttons: 200.0 };
            let layout = lay_out(&scene, view, area, cameras.of(view), &naming);
            check(&scene, &layout, &naming)?;
        }
    }
}
