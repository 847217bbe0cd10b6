//! `--help` and `--version`.

use crate::bench::Bench;

/// The commands that `hosewright --help` lists.
fn commands(help: &str) -> Vec<&str> {
    let listed = help.split("Commands:").nth(1).unwrap().split("\n\n").next().unwrap();
    listed.lines().filter_map(|line| line.split_whitespace().next()).collect()
}

#[test]
fn every_command_has_help_with_an_example() {
    let bench = Bench::new();
    let whole = bench.run(&["--help"]);
    let listed = commands(whole.is_quiet(0));
    assert!(
        ["open", "check", "sheet", "cutlist", "compare", "draw"]
            .iter()
            .all(|one| listed.contains(one)),
        "{listed:?}"
    );
    assert!(whole.out.split("Examples:").nth(1).unwrap().contains("  hosewright"));
    for command in listed {
        let ended = bench.run(&[command, "--help"]);
        let example = ended.is_quiet(0).split("Example").nth(1).expect(command);
        assert!(example.contains(&format!("  hosewright {command} ")), "{ended:?}");
    }
}

#[test]
fn help_of_a_command_is_its_help() {
    let bench = Bench::new();
    for command in ["open", "check", "sheet", "cutlist", "compare", "draw"] {
        assert_eq!(bench.run(&["help", command]).is_quiet(0), bench.run(&[command, "-h"]).out);
    }
    assert_eq!(bench.run(&["help"]).is_quiet(0), bench.run(&["--help"]).out);
}

#[test]
fn the_examples_of_the_help_work() {
    let bench = Bench::with_test_bay();
    let mut tried = 0;
    for command in ["check", "sheet", "cutlist", "compare", "draw"] {
        let help = bench.run(&[command, "--help"]).out;
        let lines = help.lines().map(str::trim);
        for line in lines.filter(|line| line.starts_with("hosewright ")) {
            let call = line.split(" > ").next().unwrap();
            let args: Vec<&str> = call.split_whitespace().skip(1).collect();
            let status = bench.run(&args).status;
            assert!(matches!(status, Some(0 | 1)), "{line}: {status:?}");
            tried += 1;
        }
    }
    assert!(tried >= 12, "{tried}");
}

#[test]
fn the_version_is_that_of_the_package() {
    let bench = Bench::new();
    let told = format!("hosewright {}\n", env!("CARGO_PKG_VERSION"));
    for flag in ["--version", "-V"] {
        assert_eq!(bench.run(&[flag]).is_quiet(0), told);
    }
}
