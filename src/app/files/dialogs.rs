//! The system's file dialogs, asked in a thread of their own so that the window goes on drawing.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use eframe::egui::Context;

use crate::app::canvas::camera::View;
use crate::export::true_scale::ViewFormat;
use crate::export::{CompareFormat, Format};

/// The ending of a bay file.
pub(super) const BAY_ENDING: &str = ".bay.json";

/// What a path is wanted for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wanted {
    /// A bay to open.
    Open {
        /// The folder to begin in.
        near: Option<PathBuf>,
    },
    /// A photo or an outline to lay under a view.
    Background {
        /// The folder to begin in.
        near: Option<PathBuf>,
    },
    /// The file of a background, where it is now.
    Instead {
        /// The folder to begin in.
        near: Option<PathBuf>,
        /// Id of the background.
        id: String,
    },
    /// A mesh to make an obstacle of.
    Mesh {
        /// The folder to begin in.
        near: Option<PathBuf>,
    },
    /// A table of parts for the parts library.
    PartsTable {
        /// The folder to begin in.
        near: Option<PathBuf>,
    },
    /// Where to write the parts library as a table.
    PartsExport {
        /// The file to propose.
        near: PathBuf,
    },
    /// Where to save the bay.
    Save {
        /// The file to propose.
        near: PathBuf,
    },
    /// Where to write the length sheet.
    Sheet {
        /// The file to propose.
        near: PathBuf,
    },
    /// Where to write the routings side by side.
    Comparison {
        /// The file to propose.
        near: PathBuf,
    },
    /// Where to write the shopping list.
    ShoppingList {
        /// The file to propose.
        near: PathBuf,
    },
    /// Where to write the labels.
    Labels {
        /// The file to propose.
        near: PathBuf,
    },
    /// Where to write the full-size template of a hose.
    Template {
        /// The file to propose.
        near: PathBuf,
        /// Id of the hose.
        run: String,
    },
    /// Where to write a view in true scale.
    Drawing {
        /// The file to propose.
        near: PathBuf,
        /// Which view.
        view: View,
    },
}

impl Wanted {
    /// Whether a file is wanted that is there already.
    pub fn opens(&self) -> bool {
        matches!(
            self,
            Self::Open { .. }
                | Self::Background { .. }
                | Self::Instead { .. }
                | Self::Mesh { .. }
                | Self::PartsTable { .. }
        )
    }

    /// The title of the dialog.
    pub fn title(&self) -> &'static str {
        match self {
            Self::Open { .. } => "Open a bay",
            Self::Background { .. } => "Put a photo or an outline under a view",
            Self::Instead { .. } => "Where the photo or outline is now",
            Self::Mesh { .. } => "Make an obstacle of a mesh",
            Self::PartsTable { .. } => "Import parts from a table",
            Self::PartsExport { .. } => "Write the parts library to",
            Self::Save { .. } => "Save the bay as",
            Self::Sheet { .. } => "Write the length sheet to",
            Self::Comparison { .. } => "Write the comparison to",
            Self::ShoppingList { .. } => "Write the shopping list to",
            Self::Labels { .. } => "Write the labels to",
            Self::Template { .. } => "Write the full-size template to",
            Self::Drawing { .. } => "Write the drawing to",
        }
    }

    /// The path with the ending that the file should have, where it has none that fits.
    pub fn with_ending(&self, path: PathBuf) -> PathBuf {
        let has = |ending: &str| path.to_string_lossy().to_lowercase().ends_with(ending);
        let add = |ending: &str| {
            let mut name = path.clone().into_os_string();
            name.push(ending);
            PathBuf::from(name)
        };
        match self {
            Self::Save { .. } if !has(".json") => add(BAY_ENDING),
            Self::ShoppingList { .. } | Self::PartsExport { .. } if !has(".csv") => add(".csv"),
            // A name in .json may be that of a bay.
            Self::Comparison { .. }
                if matches!(CompareFormat::of(&path), Ok(CompareFormat::Json) | Err(_)) =>
            {
                add(".pdf")
            }
            Self::Sheet { .. } if matches!(Format::of(&path), Ok(Format::Json) | Err(_)) => {
                add(".pdf")
            }
            Self::Drawing { .. } if ViewFormat::of(&path).is_err() => add(".dxf"),
            Self::Labels { .. } | Self::Template { .. } if !has(".pdf") => add(".pdf"),
            _ => path,
        }
    }
}

/// What came of asking.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reply {
    /// This file.
    Path(PathBuf),
    /// The user thought better of it.
    Cancelled,
    /// No dialog could be shown.
    NoService,
}

/// Asks the user for a file.
pub trait Dialogs {
    /// Asks without waiting; the answer comes through the channel.
    fn ask(&self, wanted: &Wanted) -> Receiver<Reply>;
}

/// A dialog that has not answered yet.
pub(in super::super) struct Waiting {
    pub(super) wanted: Wanted,
    pub(super) reply: Receiver<Reply>,
}

/// The dialogs of the desktop.
pub struct NativeDialogs {
    ctx: Context,
}

/// Nobody reads a dialog and cancels it faster; no answer within this time means that no service
/// was there to show one (rfd says nothing of the difference).
const TOO_QUICK: Duration = Duration::from_millis(150);

impl NativeDialogs {
    /// Dialogs that wake this window when they are answered.
    pub fn new(ctx: Context) -> Self {
        Self { ctx }
    }
}

impl Dialogs for NativeDialogs {
    fn ask(&self, wanted: &Wanted) -> Receiver<Reply> {
        let (send, receive) = channel();
        let (wanted, ctx) = (wanted.clone(), self.ctx.clone());
        std::thread::spawn(move || {
            let asked = Instant::now();
            let reply = match pick(&wanted) {
                Some(path) => Reply::Path(path),
                None if asked.elapsed() < TOO_QUICK => Reply::NoService,
                None => Reply::Cancelled,
            };
            // The window may be gone; then nobody wants the answer.
            let _ = send.send(reply);
            ctx.request_repaint();
        });
        receive
    }
}

fn pick(wanted: &Wanted) -> Option<PathBuf> {
    let dialog = rfd::FileDialog::new().set_title(wanted.title());
    match wanted {
        Wanted::Open { near } => {
            within(dialog.add_filter("Bay", &["json"]), near.as_deref()).pick_file()
        }
        Wanted::Background { near } | Wanted::Instead { near, .. } => {
            let endings = ["jpg", "jpeg", "png", "dxf", "JPG", "JPEG", "PNG", "DXF"];
            within(dialog.add_filter("Photo or outline", &endings), near.as_deref()).pick_file()
        }
        Wanted::Mesh { near } => {
            within(dialog.add_filter("Mesh", &["stl", "STL"]), near.as_deref()).pick_file()
        }
        Wanted::Save { near } => beside(dialog.add_filter("Bay", &["json"]), near).save_file(),
        Wanted::PartsTable { near } => {
            within(dialog.add_filter("Table", &["csv", "CSV"]), near.as_deref()).pick_file()
        }
        Wanted::ShoppingList { near } | Wanted::PartsExport { near } => {
            beside(dialog.add_filter("Table", &["csv"]), near).save_file()
        }
        Wanted::Sheet { near } | Wanted::Comparison { near } => {
            let dialog = dialog
                .add_filter("PDF", &["pdf"])
                .add_filter("Web page", &["html"])
                .add_filter("Table", &["csv"]);
            beside(dialog, near).save_file()
        }
        Wanted::Drawing { near, .. } => {
            let dialog = dialog.add_filter("DXF", &["dxf"]).add_filter("SVG", &["svg"]);
            beside(dialog, near).save_file()
        }
        Wanted::Labels { near } | Wanted::Template { near, .. } => {
            beside(dialog.add_filter("PDF", &["pdf"]), near).save_file()
        }
    }
}

fn within(dialog: rfd::FileDialog, folder: Option<&Path>) -> rfd::FileDialog {
    match folder {
        Some(folder) => dialog.set_directory(folder),
        None => dialog,
    }
}

fn beside(dialog: rfd::FileDialog, near: &Path) -> rfd::FileDialog {
    let name = near.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let dialog = dialog.set_file_name(name);
    match near.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => dialog.set_directory(folder),
        _ => dialog,
    }
}
