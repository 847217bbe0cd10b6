//! What the tests share: a folder to work in, the bays, and the program run in that folder.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use tempfile::TempDir;

/// A call that came back.
#[derive(Debug)]
pub(crate) struct Ended {
    pub(crate) status: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Ended {
    /// Refused: status 2, nothing on standard output, a message on standard error that is no panic.
    pub(crate) fn is_refused(&self) -> &str {
        assert_eq!(self.status, Some(2), "{self:?}");
        assert_eq!(self.out, "", "{self:?}");
        assert!(!self.err.trim().is_empty(), "{self:?}");
        assert!(!self.err.contains("panicked"), "{self:?}");
        &self.err
    }

    /// A file was written: one line on standard error says which and what, and nothing else is said.
    pub(crate) fn wrote(&self, name: &str) -> &str {
        assert_eq!((self.status, self.out.as_str()), (Some(0), ""), "{self:?}");
        let line = self.err.strip_suffix('\n').expect("one line");
        assert!(!line.contains('\n'), "{self:?}");
        line.strip_prefix(&format!("hosewright: wrote {name}: ")).expect("what was written")
    }

    /// Ended with this status and nothing to complain of.
    pub(crate) fn is_quiet(&self, status: i32) -> &str {
        assert_eq!(self.status, Some(status), "{self:?}");
        assert_eq!(self.err, "", "{self:?}");
        &self.out
    }
}

/// A folder of its own for each test.
pub(crate) struct Bench {
    folder: TempDir,
}

impl Bench {
    pub(crate) fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    /// With the test bay in it, as `my.bay.json`.
    pub(crate) fn with_test_bay() -> Self {
        let bench = Self::new();
        bench.put("my.bay.json", &fs::read_to_string(test_bay()).unwrap());
        bench
    }

    /// With the test bay as `my.bay.json`, changed.
    pub(crate) fn with_changed_bay(change: impl FnOnce(&mut Value)) -> Self {
        let bench = Self::new();
        let mut bay = serde_json::from_str(&fs::read_to_string(test_bay()).unwrap()).unwrap();
        change(&mut bay);
        bench.put("my.bay.json", &bay.to_string());
        bench
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub(crate) fn put(&self, name: &str, text: &str) {
        fs::write(self.path(name), text).unwrap();
    }

    pub(crate) fn bytes(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).unwrap()
    }

    pub(crate) fn text(&self, name: &str) -> String {
        String::from_utf8(self.bytes(name)).unwrap()
    }

    /// The names of what lies in the folder, in order.
    pub(crate) fn names(&self) -> Vec<String> {
        let entries = fs::read_dir(self.folder.path()).unwrap();
        let mut names: Vec<String> =
            entries.map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    /// The program, to be run in this folder and without a display.
    pub(crate) fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_hosewright"));
        command
            .args(args)
            .current_dir(self.folder.path())
            .env_remove("DISPLAY")
            .env_remove("WAYLAND_DISPLAY")
            .env_remove("WAYLAND_SOCKET")
            .env_remove("RUST_BACKTRACE")
            .stdin(Stdio::null());
        command
    }

    pub(crate) fn run(&self, args: &[&str]) -> Ended {
        ended(self.command(args).output().unwrap())
    }
}

pub(crate) fn ended(output: Output) -> Ended {
    Ended {
        status: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

pub(crate) fn test_bay() -> PathBuf {
    root().join("tests/cli/bay.json")
}

/// The bays that come with the program.
pub(crate) fn demo_bays() -> Vec<PathBuf> {
    let entries = fs::read_dir(root().join("demo_projects")).unwrap();
    let mut found: Vec<PathBuf> = entries
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.to_string_lossy().ends_with(".bay.json"))
        .collect();
    found.sort();
    assert!(!found.is_empty());
    found
}

/// The demo bays and the test bay.
pub(crate) fn all_bays() -> Vec<PathBuf> {
    let mut bays = demo_bays();
    bays.push(test_bay());
    bays
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}
