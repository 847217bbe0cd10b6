//! A bay being worked on.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::{Command, CommandError, History, file};
use crate::model::Bay;

/// A bay, the file it belongs to, the state that file holds, and the way here.
///
/// A change is either [`Self::apply`]ed in one go or made of a transaction: [`Self::begin`],
/// any number of [`Self::preview`]s, then [`Self::commit`] or [`Self::abort`]. Each leaves at most
/// one step in the history, and none where nothing changed.
#[derive(Debug, Clone)]
pub struct Document {
    bay: Arc<Bay>,
    path: Option<PathBuf>,
    saved: Arc<Bay>,
    history: History,
    transaction: Option<Transaction>,
    revision: u64,
}

#[derive(Debug, Clone)]
struct Transaction {
    before: Arc<Bay>,
    label: &'static str,
}

impl Document {
    /// A bay that was read from `path`, or a fresh one without a file. It counts as saved.
    pub fn new(bay: Bay, path: Option<PathBuf>) -> Self {
        let bay = Arc::new(bay);
        Self {
            saved: Arc::clone(&bay),
            bay,
            path,
            history: History::default(),
            transaction: None,
            revision: 0,
        }
    }

    /// The bay as it now is, with what a transaction previews.
    pub fn bay(&self) -> &Arc<Bay> {
        &self.bay
    }

    /// The file it belongs to.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Grows whenever the bay changes; what is derived from a bay can be kept under it.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Whether the bay differs from what the file holds (from its beginning, without a file).
    pub fn is_changed(&self) -> bool {
        // Equal bays are made one at every step, so that comparing the pointers is enough but in
        // the middle of a transaction.
        !Arc::ptr_eq(&self.bay, &self.saved) && *self.bay != *self.saved
    }

    /// The bay as a file at `path` holds it: what it names beside itself, named from there.
    pub fn bay_for(&self, path: &Path) -> Arc<Bay> {
        let (from, to) = (self.path.as_deref().map(file::folder_of), file::folder_of(path));
        if from == Some(to) {
            return Arc::clone(&self.bay);
        }
        let mut bay = Bay::clone(&self.bay);
        file::rebase(&mut bay, from, Some(to));
        if bay == *self.bay { Arc::clone(&self.bay) } else { Arc::new(bay) }
    }

    /// Notes that [`Self::bay_for`] has been written to `path`. In another folder what the bay
    /// names beside itself has other names from now on, in every step of the history too.
    pub fn mark_saved(&mut self, path: PathBuf) {
        let bay = self.bay_for(&path);
        if !Arc::ptr_eq(&bay, &self.bay) {
            let from = self.path.as_deref().map(|path| file::folder_of(path).to_owned());
            let to = file::folder_of(&path).to_owned();
            self.history.rename_files(|bay| file::rebase(bay, from.as_deref(), Some(&to)));
            self.show(bay);
        }
        self.path = Some(path);
        self.saved = Arc::clone(&self.bay);
    }

    /// Carries out one command as one step; an open transaction is committed first. Says whether
    /// anything changed.
    ///
    /// # Errors
    /// [`CommandError`]; the bay is then unchanged.
    pub fn apply(&mut self, command: &Command) -> Result<bool, CommandError> {
        self.commit();
        self.begin();
        match self.preview(command) {
            Ok(()) => Ok(self.commit()),
            Err(error) => {
                self.abort();
                Err(error)
            }
        }
    }

    /// Opens a transaction; an open one is committed first.
    pub fn begin(&mut self) {
        self.commit();
        self.transaction = Some(Transaction { before: Arc::clone(&self.bay), label: "Change" });
    }

    /// Whether a transaction is open.
    pub fn in_transaction(&self) -> bool {
        self.transaction.is_some()
    }

    /// Shows the bay as it was at [`Self::begin`] with this command carried out, and nothing else.
    /// Opens a transaction where none is.
    ///
    /// # Errors
    /// [`CommandError`]; the bay then stays as it was last shown.
    pub fn preview(&mut self, command: &Command) -> Result<(), CommandError> {
        if self.transaction.is_none() {
            self.begin();
        }
        let Some(transaction) = &mut self.transaction else { return Ok(()) };
        let mut bay = Bay::clone(&transaction.before);
        command.apply(&mut bay)?;
        transaction.label = command.label(&bay);
        if bay != *self.bay {
            self.bay = Arc::new(bay);
            self.revision += 1;
        }
        Ok(())
    }

    /// The bay as it was when the open transaction began; as it is where none is open.
    pub fn before(&self) -> &Arc<Bay> {
        self.transaction.as_ref().map_or(&self.bay, |transaction| &transaction.before)
    }

    /// Makes what is shown one step of the history. Says whether anything changed.
    pub fn commit(&mut self) -> bool {
        let Some(Transaction { before, label }) = self.transaction.take() else { return false };
        if *self.bay == *before {
            self.bay = before;
            return false;
        }
        if *self.bay == *self.saved {
            self.bay = Arc::clone(&self.saved);
        }
        self.history.push(label, before);
        true
    }

    /// Puts the bay back to what it was at [`Self::begin`].
    pub fn abort(&mut self) {
        if let Some(Transaction { before, .. }) = self.transaction.take() {
            self.show(before);
        }
    }

    /// One step back; an open transaction is only aborted. Gives the name of what was undone.
    pub fn undo(&mut self) -> Option<&'static str> {
        if self.in_transaction() {
            self.abort();
            return None;
        }
        let label = self.history.undo_label()?;
        let bay = self.history.undo(&self.bay)?;
        self.show(bay);
        Some(label)
    }

    /// One step forward; an open transaction is only aborted. Gives the name of what was done
    /// again.
    pub fn redo(&mut self) -> Option<&'static str> {
        if self.in_transaction() {
            self.abort();
            return None;
        }
        let label = self.history.redo_label()?;
        let bay = self.history.redo(&self.bay)?;
        self.show(bay);
        Some(label)
    }

    /// The names and the number of the steps.
    pub fn history(&self) -> &History {
        &self.history
    }

    fn show(&mut self, bay: Arc<Bay>) {
        if !Arc::ptr_eq(&self.bay, &bay) {
            self.bay = bay;
            self.revision += 1;
        }
    }
}

#[cfg(test)]
mod tests;
