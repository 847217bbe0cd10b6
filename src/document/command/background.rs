//! Photos and outlines under a view.

use super::CommandError;
use crate::model::{Background, BackgroundEntry, Bay};

/// On top of those that are there.
pub(super) fn add(bay: &mut Bay, background: &Background) {
    bay.backgrounds.push(BackgroundEntry::Known(Box::new(background.clone())));
}

pub(super) fn set(bay: &mut Bay, id: &str, to: &Background) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    bay.backgrounds[at] = BackgroundEntry::Known(Box::new(to.clone()));
    Ok(())
}

pub(super) fn delete(bay: &mut Bay, id: &str) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    bay.backgrounds.remove(at);
    Ok(())
}

/// To a place among the others, the last where there are fewer.
pub(super) fn put(bay: &mut Bay, id: &str, to: usize) -> Result<(), CommandError> {
    let at = place(bay, id)?;
    let entry = bay.backgrounds.remove(at);
    bay.backgrounds.insert(to.min(bay.backgrounds.len()), entry);
    Ok(())
}

fn place(bay: &Bay, id: &str) -> Result<usize, CommandError> {
    let found = bay.backgrounds.iter().position(|entry| entry.known().is_some_and(|u| u.id == id));
    found.ok_or_else(|| CommandError::NoBackground(id.to_owned()))
}
