//! Undo and redo: named snapshots. A snapshot shares what it does not change only with itself, so a
//! step costs one bay; bays are kilobytes (meshes are shared), and nothing is ever dropped.

use std::sync::Arc;

use crate::model::Bay;

/// The steps behind and ahead of a bay.
#[derive(Debug, Clone, Default)]
pub struct History {
    past: Vec<Step>,
    future: Vec<Step>,
}

/// A named step and the bay on its far side.
#[derive(Debug, Clone)]
struct Step {
    label: &'static str,
    bay: Arc<Bay>,
}

impl History {
    /// Notes a step that led away from `before`. What was undone can no longer be redone.
    pub fn push(&mut self, label: &'static str, before: Arc<Bay>) {
        self.past.push(Step { label, bay: before });
        self.future.clear();
    }

    /// One step back from `now`: the bay as it was before.
    pub fn undo(&mut self, now: &Arc<Bay>) -> Option<Arc<Bay>> {
        let step = self.past.pop()?;
        self.future.push(Step { label: step.label, bay: Arc::clone(now) });
        Some(step.bay)
    }

    /// One step forward from `now`: the bay as it was before the undoing.
    pub fn redo(&mut self, now: &Arc<Bay>) -> Option<Arc<Bay>> {
        let step = self.future.pop()?;
        self.past.push(Step { label: step.label, bay: Arc::clone(now) });
        Some(step.bay)
    }

    /// Names the files beside the bay again in every step; that is no step itself.
    pub fn rename_files(&mut self, rename: impl Fn(&mut Bay)) {
        for step in self.past.iter_mut().chain(&mut self.future) {
            let mut bay = Bay::clone(&step.bay);
            rename(&mut bay);
            if bay != *step.bay {
                step.bay = Arc::new(bay);
            }
        }
    }

    /// What [`Self::undo`] would undo.
    pub fn undo_label(&self) -> Option<&'static str> {
        self.past.last().map(|step| step.label)
    }

    /// What [`Self::redo`] would do again.
    pub fn redo_label(&self) -> Option<&'static str> {
        self.future.last().map(|step| step.label)
    }

    /// How many steps can be undone.
    pub fn depth(&self) -> usize {
        self.past.len()
    }
}
