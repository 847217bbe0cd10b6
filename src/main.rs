//! The program: arguments → command or window, nothing else.

use std::path::PathBuf;
use std::process::ExitCode;

use hosewright::app;
use hosewright::cli::{self, Exit, Outcome};

/// Keeps the memory of one frame for the next.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    match cli::run(std::env::args_os()) {
        Outcome::Done(exit) => exit,
        Outcome::Window(file) => open_window(file),
    }
    .into()
}

fn open_window(file: Option<PathBuf>) -> Exit {
    match app::run(file) {
        Ok(()) => Exit::Fine,
        Err(why) => cli::refuse(&why.to_string()),
    }
}
