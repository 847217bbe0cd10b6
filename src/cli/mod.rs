//! The commands: arguments → load → solve → check → write.
//!
//! Data goes to standard output, messages to standard error. [`run`] never ends the program itself
//! and never opens a window: it says what is left to do.

mod args;
mod check;
mod compare;
mod compare_text;
mod cutlist;
mod cutlist_text;
mod draw;
mod findings_text;
mod labels;
mod output;
mod sheet;
mod table;
mod target;
mod template;
mod text;

use std::ffi::{OsStr, OsString};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Parser;

use crate::units::{escaped, is_plain};
use args::{Args, Command};

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// Done; nothing failed.
    Fine,
    /// Done; at least one finding is a `fail`.
    Failed,
    /// The file or the call is at fault.
    Refused,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        match exit {
            Exit::Fine => Self::SUCCESS,
            Exit::Failed => Self::from(1),
            Exit::Refused => Self::from(2),
        }
    }
}

/// What is left to do after the arguments were read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// Nothing: the command is done.
    Done(Exit),
    /// Open the window, with a bay or without.
    Window(Option<PathBuf>),
}

/// Why a command was refused; a sentence for standard error.
type Refusal = String;

/// Reads the arguments (the program's own name first) and carries out what needs no window.
pub fn run(args: impl IntoIterator<Item = OsString>) -> Outcome {
    let args: Vec<OsString> = args.into_iter().collect();
    // As a desktop opens a file with the program.
    if let [_, file] = args.as_slice()
        && is_bay_file(Path::new(file))
    {
        return Outcome::Window(Some(PathBuf::from(file)));
    }
    let args = match Args::try_parse_from(&args) {
        Ok(args) => args,
        Err(_) if args.iter().any(|arg| !is_plain_arg(arg)) => {
            // The same fault, told of arguments that show as what they are.
            let shown = args.iter().map(|arg| escaped(&arg.to_string_lossy()).into_owned());
            return Outcome::Done(match Args::try_parse_from(shown) {
                Err(error) => usage(&error),
                Ok(_) => refuse("an argument holds control characters"),
            });
        }
        Err(error) => return Outcome::Done(usage(&error)),
    };
    let done = match args.command {
        None => return Outcome::Window(None),
        Some(Command::Open { file }) => return Outcome::Window(Some(file)),
        Some(Command::Check(args)) => check::run(&args),
        Some(Command::Sheet(args)) => sheet::run(&args),
        Some(Command::Labels(args)) => labels::run(&args),
        Some(Command::Template(args)) => template::run(&args),
        Some(Command::Cutlist(args)) => cutlist::run(&args),
        Some(Command::Compare(args)) => compare::run(&args),
        Some(Command::Draw(args)) => draw::run(&args),
        Some(Command::Help { command }) => return Outcome::Done(help(command)),
    };
    Outcome::Done(done.unwrap_or_else(|why| refuse(&why)))
}

/// Says on standard error why something was refused.
pub fn refuse(why: &str) -> Exit {
    output::message(why);
    Exit::Refused
}

/// The same as `hosewright COMMAND --help`.
fn help(command: Option<String>) -> Exit {
    let own_name = Some("hosewright".to_owned());
    let asked = [own_name, command, Some("--help".to_owned())];
    Args::try_parse_from(asked.into_iter().flatten())
        .map_or_else(|error| usage(&error), |_| Exit::Refused)
}

fn is_plain_arg(arg: &OsStr) -> bool {
    arg.to_string_lossy().chars().all(is_plain)
}

/// Whether this names a file that is there, and may be a bay's by its ending.
fn is_bay_file(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("json")) && path.is_file()
}

/// Help and version go to standard output and are fine; the rest is a call at fault.
fn usage(error: &clap::Error) -> Exit {
    if error.use_stderr() {
        // Where even this cannot be written there is nobody left to tell.
        let _ = error.print();
        return Exit::Refused;
    }
    match output::printed(error.print()) {
        Ok(()) => Exit::Fine,
        Err(why) => refuse(&why),
    }
}
