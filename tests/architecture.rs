//! The layering, as a test: what each layer may name, and what it may not.
//!
//! A layer may name itself and those before it in [`LAYERS`]. The window crates are named in `app`
//! only; files, clock and environment only in `document/file`, `clock`,
//! `app`, `cli` and `main`.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use std::fs;
use std::path::{Path, PathBuf};

/// Lowest first.
const LAYERS: [&str; 13] = [
    "units", "geom", "model", "engine", "checks", "remedy", "document", "drawing", "report",
    "export", "clock", "app", "cli",
];

fn sources(dir: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> =
        fs::read_dir(dir).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ext| ext == "rs") {
            found.push(path);
        }
    }
}

/// Every source file below `src`, with its path from there and its code without comments.
fn all() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    sources(&root, &mut found);
    found
        .into_iter()
        .map(|path| {
            let name = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
            (name, code_of(&fs::read_to_string(&path).unwrap()))
        })
        .collect()
}

fn code_of(text: &str) -> String {
    text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
}

fn layer_of(file: &str) -> Option<usize> {
    let first = file.split('/').next().unwrap_or(file).trim_end_matches(".rs");
    LAYERS.iter().position(|layer| *layer == first)
}

/// The layers that `code` names as `crate::layer` or `hosewright::layer`.
fn named_layers(code: &str) -> Vec<usize> {
    let mut named = Vec::new();
    for start in ["crate::", "hosewright::"] {
        for (at, _) in code.match_indices(start) {
            let rest = &code[at + start.len()..];
            let inner = rest.strip_prefix('{').unwrap_or(rest);
            let until = if rest.starts_with('{') { inner.find('}') } else { None };
            let names: Vec<&str> = match until {
                Some(end) => inner[..end].split(',').collect(),
                None => vec![inner],
            };
            for name in names {
                let word: String =
                    name.trim().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                named.extend(LAYERS.iter().position(|layer| *layer == word));
            }
        }
    }
    named
}

#[test]
fn a_layer_names_only_itself_and_those_below() {
    let mut seen = 0;
    for (file, code) in all() {
        let Some(layer) = layer_of(&file) else { continue };
        seen += 1;
        for named in named_layers(&code) {
            assert!(named <= layer, "{file}: {} must not name {}", LAYERS[layer], LAYERS[named]);
        }
    }
    assert!(seen > 20, "the sources were found");
}

#[test]
fn only_the_window_names_the_window_crates() {
    for (file, code) in all() {
        if file.starts_with("app/") || file == "app.rs" {
            continue;
        }
        for name in ["egui", "eframe", "rfd", "winit", "lyon"] {
            let used = [format!("{name}::"), format!("use {name}"), format!("extern crate {name}")];
            assert!(!used.iter().any(|word| code.contains(word.as_str())), "{file} names {name}");
        }
    }
}

#[test]
fn no_file_clock_or_environment_below_the_file_layer() {
    const MAY: [&str; 7] =
        ["document/file", "clock.rs", "app/", "cli", "main.rs", "app.rs", "cli.rs"];
    for (file, code) in all() {
        if MAY.iter().any(|place| file.starts_with(place)) {
            continue;
        }
        for name in
            ["std::fs", "std::env", "std::time", "std::net", "std::process", "std::io::stdin"]
        {
            assert!(!code.contains(name), "{file} names {name}");
        }
    }
}

#[test]
fn colours_are_named_in_the_theme_only() {
    for (file, code) in all() {
        if file.starts_with("app/theme") {
            continue;
        }
        for name in ["Color32::from_rgb", "Color32::from_rgba", "Color32::from_hex", "hex_color!"] {
            assert!(!code.contains(name), "{file} makes a colour by itself ({name})");
        }
    }
}

#[test]
fn no_part_of_the_window_names_the_whole() {
    let top = ["app/mod.rs", "app/state.rs", "app/filing.rs", "app/dispatch.rs", "app/frame.rs"];
    for (file, code) in all() {
        if file.starts_with("app/") && !top.contains(&file.as_str()) {
            let mut words = code.split(|c: char| !c.is_alphanumeric() && c != '_');
            assert!(words.all(|word| word != "App"), "{file} names the whole window");
        }
    }
}

#[test]
fn nothing_else_stands_at_the_top() {
    const TOP: [&str; 9] = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "src",
        "tests",
        "demo_projects",
        "docs",
        "LICENSE",
    ];
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for entry in fs::read_dir(root).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        // `target` is made by the build and ignored by the repository.
        let known = TOP.contains(&name.as_str()) || name.starts_with('.') || name == "target";
        assert!(known, "{name} does not belong at the top level");
    }
    for name in TOP {
        assert!(root.join(name).exists(), "{name} is missing at the top level");
    }
}

#[test]
fn source_files_stay_small() {
    for (file, _) in all() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(&file);
        let lines = fs::read_to_string(path).unwrap().lines().count();
        assert!(lines <= 500, "{file} has {lines} lines: split it");
    }
}

/// What still is decided in the export, file by file; to become less.
const DECIDES_YET: [(&str, &[&str]); 3] = [
    // Which findings are marked in a drawing of the bay, and which mark each has.
    ("export/true_scale/words.rs", &["crate::checks", "Severity::"]),
    // The route of a template is turned into a bend table.
    ("export/template/mod.rs", &["BendTable::new"]),
    // The tests' own bay.
    ("export/pdf/labels/tests.rs", &["solve_routing"]),
];

#[test]
fn the_export_solves_checks_and_judges_nothing() {
    const NAMES: [&str; 16] = [
        "crate::checks",
        "Severity::",
        "\"fail\"",
        "\"warn\"",
        "\"note\"",
        "solve_whole",
        "solve_routing",
        "check(",
        "advise(",
        "flow_of(",
        "as_made(",
        "leak_test::",
        "BendTable::new",
        "starts_with(' ')",
        "split_once(",
        "trim_start_matches(",
    ];
    let mut excepted = 0;
    for (file, code) in all().into_iter().filter(|(file, _)| file.starts_with("export/")) {
        for name in NAMES.into_iter().filter(|name| code.contains(name)) {
            let is_known =
                DECIDES_YET.iter().any(|(one, names)| *one == file && names.contains(&name));
            assert!(is_known, "{file} decides: it names {name}");
            excepted += 1;
        }
    }
    let listed: usize = DECIDES_YET.iter().map(|(_, names)| names.len()).sum();
    assert_eq!(excepted, listed, "what is decided no longer is taken off the list");
}
