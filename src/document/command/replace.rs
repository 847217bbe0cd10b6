//! One thing in the place of another; what refers to it follows.

use super::CommandError;
use super::item::{body_mut, port_mut, solid_mut};
use crate::model::{Bay, Body, Port, Solid};

pub(super) fn port(bay: &mut Bay, id: &str, port: &Port) -> Result<(), CommandError> {
    *port_mut(bay, id)? = port.clone();
    if port.id != id {
        for run in bay.options.iter_mut().flat_map(|option| &mut option.runs) {
            for end in [&mut run.from, &mut run.to] {
                follow(&mut end.port, id, &port.id);
            }
        }
    }
    Ok(())
}

pub(super) fn solid(bay: &mut Bay, id: &str, solid: &Solid) -> Result<(), CommandError> {
    *solid_mut(bay, id)? = solid.clone();
    if solid.id != id {
        for on in bay.ports.iter_mut().filter_map(|port| port.on.as_mut()) {
            follow(on, id, &solid.id);
        }
    }
    Ok(())
}

pub(super) fn body(bay: &mut Bay, id: &str, body: &Body) -> Result<(), CommandError> {
    *body_mut(bay, id)? = body.clone();
    if body.id != id {
        let ports = bay.ports.iter_mut().filter_map(|port| port.body.as_mut());
        let solids = bay.solids.iter_mut().filter_map(|solid| solid.body.as_mut());
        for reference in ports.chain(solids) {
            follow(reference, id, &body.id);
        }
    }
    Ok(())
}

fn follow(reference: &mut String, old: &str, new: &str) {
    if reference == old {
        new.clone_into(reference);
    }
}
