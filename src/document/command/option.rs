//! Options: copies, order, and the last that stays.

use super::CommandError;
use super::item::fresh_id;
use crate::model::{Bay, Routing};

fn place(bay: &Bay, id: &str) -> Result<usize, CommandError> {
    bay.option_index(id).ok_or_else(|| CommandError::NoOption(id.to_owned()))
}

/// A copy of an option, right behind it.
pub(super) fn duplicate(bay: &mut Bay, id: &str, name: &str) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    let id = fresh_id(id, |id| bay.option_index(id).is_some());
    let copy = Routing { id, name: name.to_owned(), ..bay.options[at].clone() };
    bay.options.insert(at + 1, copy);
    Ok(())
}

/// Puts an option somewhere else in the list.
pub(super) fn put(bay: &mut Bay, id: &str, to: usize) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    let option = bay.options.remove(at);
    bay.options.insert(to.min(bay.options.len()), option);
    Ok(())
}

/// Takes an option out, but not the last.
pub(super) fn delete(bay: &mut Bay, id: &str) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    if bay.options.len() == 1 {
        return Err(CommandError::LastOption);
    }
    bay.options.remove(at);
    Ok(())
}
