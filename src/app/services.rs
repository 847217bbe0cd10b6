//! What the window needs from outside.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use super::files::dialogs::{Dialogs, NativeDialogs};
use super::jobs::Wake;
use super::recent::Recent;
use super::recovery::Recovery;
use super::settings::Store;

/// What the window needs from outside; tests bring their own.
pub struct Services {
    /// Asks for files.
    pub dialogs: Box<dyn Dialogs>,
    /// The files opened lately.
    pub recent: Recent,
    /// What the user likes.
    pub settings: Store,
    /// Keeps unsaved work.
    pub recovery: Recovery,
    /// Wakes the window when work in another thread is done.
    pub wake: Wake,
    /// How long the window waits for work in another thread before it shows its progress.
    pub patience: Duration,
    /// Opens a finished file with whatever the system opens it with; says why it could not.
    pub show: fn(&Path) -> Result<(), String>,
}

/// A blink: what takes no longer shows no progress (our own default).
const PATIENCE: Duration = Duration::from_millis(150);

impl Services {
    /// The system's own.
    pub fn native(ctx: &eframe::egui::Context) -> Self {
        let waken = ctx.clone();
        Self {
            dialogs: Box::new(NativeDialogs::new(ctx.clone())),
            settings: Store::of_the_user(),
            recovery: Recovery::of_the_user(),
            wake: Arc::new(move || waken.request_repaint()),
            patience: PATIENCE,
            recent: Recent::of_the_user(),
            show: |path| opener::open(path).map_err(|error| error.to_string()),
        }
    }
}
