//! Scenes for the tests. Invented.

use glam::{DVec3, dvec3};

use crate::app::canvas::scene::{self, Scene};
use crate::engine::solve_routing;
use crate::model::{Bay, Nature, Obstacle, Shape};
use crate::units::LengthUnit;

/// The scene of the first routing of a bay.
pub(super) fn scene_of(bay: &Bay) -> Scene {
    let routing = &bay.routings[0];
    scene::build(bay, routing, &solve_routing(bay, routing), &[])
}

/// The small bay of the tests, in millimetres.
pub(super) fn bay() -> Bay {
    Bay { show_units: LengthUnit::Mm, ..crate::app::fixture::bay() }
}

/// Without anything but ports, so that nothing else is near.
pub(super) fn only_ports(ports: &[(&str, DVec3, DVec3)]) -> Scene {
    let mut bay = bay();
    let model = bay.ports[0].clone();
    bay.ports = ports
        .iter()
        .map(|(id, at, toward)| crate::model::Port {
            id: (*id).into(),
            name: (*id).into(),
            at: *at,
            toward: *toward,
            ..model.clone()
        })
        .collect();
    bay.obstacles.clear();
    bay.routings[0].runs.clear();
    scene_of(&bay)
}

/// Without anything but one obstacle.
pub(super) fn only_obstacle(shape: Shape) -> Scene {
    let mut bay = bay();
    bay.ports.clear();
    bay.routings[0].runs.clear();
    bay.obstacles = vec![obstacle("tray", shape)];
    scene_of(&bay)
}

pub(super) fn obstacle(id: &str, shape: Shape) -> Obstacle {
    Obstacle {
        id: id.into(),
        name: id.into(),
        nature: Nature::Plain,
        min_clearance_mm: None,
        group: None,
        shape,
        locked: None,
        extra: vec![],
    }
}

/// With nothing in it.
pub(super) fn empty() -> Scene {
    only_ports(&[])
}

/// Everything of the scene moved by the same.
pub(super) fn shifted(bay: &Bay, by: DVec3) -> Bay {
    let mut bay = bay.clone();
    for port in &mut bay.ports {
        port.at += by;
    }
    for obstacle in &mut bay.obstacles {
        match &mut obstacle.shape {
            Shape::Box { min, max } => {
                *min += by;
                *max += by;
            }
            Shape::Cylinder { from, to, .. } => {
                *from += by;
                *to += by;
            }
            Shape::Sphere { at, .. } => *at += by,
            Shape::Mesh { .. } => {}
        }
    }
    for run in bay.routings.iter_mut().flat_map(|routing| &mut routing.runs) {
        for via in &mut run.via {
            *via.at_mut() += by;
        }
    }
    bay
}

/// A bay of 60 hoses, 120 ports and 200 obstacles.
pub(super) fn large() -> Bay {
    let mut bay = bay();
    let (ports, runs) = (bay.ports.clone(), bay.routings[0].runs.clone());
    let boxes = |k: u32| {
        let (column, row) = (f64::from(k % 20), f64::from(k / 20));
        let min = dvec3(50.0 * column, 40.0 * row, 7.0 * column);
        obstacle(&format!("s{k}"), Shape::Box { min, max: min + DVec3::splat(23.0) })
    };
    bay.obstacles = (0..200).map(boxes).collect();
    bay.ports.clear();
    bay.routings[0].runs.clear();
    for k in 0..30 {
        let by = dvec3(3.0, 17.0, 5.0) * f64::from(k);
        for port in &ports {
            let mut port = port.clone();
            port.id = format!("{}{k}", port.id);
            port.at += by;
            bay.ports.push(port);
        }
        for run in &runs {
            let mut run = run.clone();
            run.id = format!("{}{k}", run.id);
            run.from.port = format!("{}{k}", run.from.port);
            run.to.port = format!("{}{k}", run.to.port);
            run.via.iter_mut().for_each(|via| *via.at_mut() += by);
            bay.routings[0].runs.push(run);
        }
    }
    bay
}
