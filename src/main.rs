//! The program: arguments → command or window, nothing else.

use std::path::PathBuf;
use std::process::ExitCode;

use hosewright::cli::{self, Exit, Outcome};

fn main() -> ExitCode {
    match cli::run(std::env::args_os()) {
        Outcome::Done(exit) => exit,
        Outcome::Window(file) => open_window(file),
    }
    .into()
}

fn open_window(_file: Option<PathBuf>) -> Exit {
    cli::refuse("this build has no window; `hosewright --help` lists the commands")
}
