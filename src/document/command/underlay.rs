//! Photos and outlines under a view.

use super::CommandError;
use crate::model::{Bay, Underlay, UnderlayEntry};

/// On top of those that are there.
pub(super) fn add(bay: &mut Bay, underlay: &Underlay) {
    bay.underlays.push(UnderlayEntry::Known(Box::new(underlay.clone())));
}

pub(super) fn set(bay: &mut Bay, id: &str, to: &Underlay) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    bay.underlays[at] = UnderlayEntry::Known(Box::new(to.clone()));
    Ok(())
}

pub(super) fn delete(bay: &mut Bay, id: &str) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    bay.underlays.remove(at);
    Ok(())
}

/// To a place among the others, the last where there are fewer.
pub(super) fn put(bay: &mut Bay, id: &str, to: usize) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    let entry = bay.underlays.remove(at);
    bay.underlays.insert(to.min(bay.underlays.len()), entry);
    Ok(())
}

fn place(bay: &Bay, id: &str) -> Result<usize, CommandError> {
    let found = bay.underlays.iter().position(|entry| entry.known().is_some_and(|u| u.id == id));
    found.ok_or_else(|| CommandError::NoUnderlay(id.to_owned()))
}
