//! The window. The only layer that names the window crates.
//!
//! [`App`] is made of parts that own their state; panels and canvas are shown what they need and tell
//! what the user asks for as [`actions::Action`]s; `dispatch` carries these out, and nothing else
//! changes the state. What is selected, hovered or looked at is here, never in the document.

mod about;
pub mod actions;
mod advice;
mod asked;
pub mod background;
pub mod canvas;
pub mod comfort;
mod compare;
mod dispatch;
pub mod files;
mod filing;
mod finder;
#[cfg(test)]
mod fixture;
mod frame;
pub mod groups;
pub mod jobs;
mod key_focus;
mod key_list;
mod looking;
mod over;
mod panels;
mod parts;
pub mod recent;
pub mod recovery;
mod routings;
mod samples;
mod seen;
mod selection;
mod services;
pub mod settings;
mod sheet;
mod shopping;
mod shortcuts;
mod solved;
mod solved_order;
mod state;
pub mod theme;
mod told;
pub mod tools;
mod unsaved;
mod widgets;
mod words;
mod work;

pub use services::Services;
pub use state::App;

use std::path::PathBuf;

/// Why the window could not be shown.
#[derive(Debug, thiserror::Error)]
pub enum WindowError {
    /// There is no desktop to show it on.
    #[error(
        "no window can be opened here: it needs a display (DISPLAY or WAYLAND_DISPLAY); \
         `hosewright check` and `hosewright sheet` need none"
    )]
    NoDisplay(#[source] eframe::Error),
    /// The desktop or the graphics driver refused.
    #[error("no window can be opened here: {0}")]
    Refused(#[source] eframe::Error),
}

impl From<eframe::Error> for WindowError {
    fn from(error: eframe::Error) -> Self {
        match error {
            eframe::Error::Winit(_) | eframe::Error::WinitEventLoop(_) => Self::NoDisplay(error),
            _ => Self::Refused(error),
        }
    }
}

/// The name that desktop files and window managers know the program by.
const APP_ID: &str = "hosewright";

/// Shows the window until it is closed, with the bay of `path` or with an invitation.
///
/// # Errors
/// [`WindowError`], such as where there is no display.
pub fn run(path: Option<PathBuf>) -> Result<(), WindowError> {
    // Read once more by the window; here only for its place.
    let placed = settings::Store::of_the_user().settings;
    let viewport = comfort::viewport(&placed).with_app_id(APP_ID).with_title("Hosewright");
    let options = eframe::NativeOptions {
        viewport,
        // One embedded font: the same text on every machine.
        system_font_fallback: false,
        ..eframe::NativeOptions::default()
    };
    let create: eframe::AppCreator<'_> = Box::new(move |cc| {
        theme::install(&cc.egui_ctx);
        let services = Services::native(&cc.egui_ctx);
        services.recovery.guard_against_panics();
        comfort::dress(&cc.egui_ctx, &services.settings.settings);
        Ok(Box::new(App::new(path, services)))
    });
    Ok(eframe::run_native(APP_ID, options, create)?)
}
