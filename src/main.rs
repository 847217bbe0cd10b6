//! The program: arguments → command or window, nothing else.

#[cfg(feature = "window")]
use std::path::PathBuf;
use std::process::ExitCode;

#[cfg(feature = "window")]
use hosewright::app;
#[cfg(feature = "window")]
use hosewright::cli::Exit;
use hosewright::cli::{self, Outcome};

/// Keeps the memory of one frame for the next.
#[cfg(feature = "window")]
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

#[cfg(not(feature = "window"))]
const NO_WINDOW: &str = "this program was built without its window; build it with `cargo build`, or name a command (see --help)";

fn main() -> ExitCode {
    match cli::run(std::env::args_os()) {
        Outcome::Done(exit) => exit,
        #[cfg(feature = "window")]
        Outcome::Window(file) => open_window(file),
        #[cfg(not(feature = "window"))]
        Outcome::Window(_) => cli::refuse(NO_WINDOW),
    }
    .into()
}

#[cfg(feature = "window")]
fn open_window(file: Option<PathBuf>) -> Exit {
    match app::run(file) {
        Ok(()) => Exit::Fine,
        Err(why) => cli::refuse(&why.to_string()),
    }
}
