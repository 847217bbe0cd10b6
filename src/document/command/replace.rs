//! One thing in the place of another; what refers to it follows.

use super::item::{group_mut, obstacle_mut, port_mut};
use super::{CommandError, finite};
use crate::model::{Bay, MovingGroup, Obstacle, Port};

pub(super) fn port(bay: &mut Bay, id: &str, port: &Port) -> Result<(), CommandError> {
    *port_mut(bay, id)? = port.clone();
    if port.id != id {
        for run in bay.routings.iter_mut().flat_map(|routing| &mut routing.runs) {
            for end in [&mut run.from, &mut run.to] {
                rename_reference(&mut end.port, id, &port.id);
            }
        }
    }
    Ok(())
}

pub(super) fn obstacle(bay: &mut Bay, id: &str, obstacle: &Obstacle) -> Result<(), CommandError> {
    let was = std::mem::replace(obstacle_mut(bay, id)?, obstacle.clone());
    // What is screwed into it goes where it goes.
    if let Some(by) = obstacle.shape.moved_from(&was.shape) {
        for port in bay.ports.iter_mut().filter(|port| port.on.as_deref() == Some(id)) {
            port.at = finite(port.at + by)?;
        }
    }
    if obstacle.id != id {
        for on in bay.ports.iter_mut().filter_map(|port| port.on.as_mut()) {
            rename_reference(on, id, &obstacle.id);
        }
    }
    Ok(())
}

pub(super) fn group(bay: &mut Bay, id: &str, group: &MovingGroup) -> Result<(), CommandError> {
    *group_mut(bay, id)? = group.clone();
    if group.id != id {
        let ports = bay.ports.iter_mut().filter_map(|port| port.group.as_mut());
        let obstacles = bay.obstacles.iter_mut().filter_map(|obstacle| obstacle.group.as_mut());
        for reference in ports.chain(obstacles) {
            rename_reference(reference, id, &group.id);
        }
    }
    Ok(())
}

fn rename_reference(reference: &mut String, old: &str, new: &str) {
    if reference == old {
        new.clone_into(reference);
    }
}
