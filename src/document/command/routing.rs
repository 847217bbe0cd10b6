//! Routings: copies, order, and the last that stays.

use super::CommandError;
use super::item::fresh_id;
use crate::model::{Bay, Routing};

fn place(bay: &Bay, id: &str) -> Result<usize, CommandError> {
    bay.routing_index(id).ok_or_else(|| CommandError::NoRouting(id.to_owned()))
}

/// A copy of a routing, right behind it.
pub(super) fn duplicate(bay: &mut Bay, id: &str, name: &str) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    let id = fresh_id(id, |id| bay.routing_index(id).is_some());
    let copy = Routing { id, name: name.to_owned(), ..bay.routings[at].clone() };
    bay.routings.insert(at + 1, copy);
    Ok(())
}

/// Puts a routing somewhere else in the list.
pub(super) fn put(bay: &mut Bay, id: &str, to: usize) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    let routing = bay.routings.remove(at);
    bay.routings.insert(to.min(bay.routings.len()), routing);
    Ok(())
}

/// Takes a routing out, but not the last.
pub(super) fn delete(bay: &mut Bay, id: &str) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    if bay.routings.len() == 1 {
        return Err(CommandError::LastRouting);
    }
    bay.routings.remove(at);
    Ok(())
}
