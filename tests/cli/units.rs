//! All figures of a bay that people read are in its own units: prints, pages and lists.

use std::fs;

use serde_json::{Value, json};

use crate::bench::{Bench, all_bays};

const METRIC: [&str; 16] = [
    "mm", "cm", "m", "metre", "metres", "bar", "°C", "L/min", "m/s", "kg", "g", "J", "N·m",
    "kg/m³", "mm²/s", "kPa",
];
const INCH: [&str; 13] = [
    "in",
    "ft",
    "foot",
    "feet",
    "psi",
    "inHg",
    "°F",
    "US gal/min",
    "ft/s",
    "lb",
    "lb-in",
    "ft·lbf",
    "cSt",
];

/// Lines that may have the other units too, by what they begin with or have in them.
const ALLOWED: [(&str, &str); 8] = [
    ("Cut lengths are rounded up: to 1/16 in, to 1 mm.", "the cut length stands in both units"),
    ("Cushioned clamp, ", "a name that the builder gave"),
    ("n-octane of CoolProp", "a source, quoted"),
    ("2.8 to 5.0 mm²/s at 20 °C: US DOE", "a source, quoted"),
    ("density, and viscosity at 40 and 100 °C", "the temperatures that oils are listed at"),
    (" tube diameters", "where a figure comes from that is not measured"),
    ("p. 59: 24 in apart at most", "a source, quoted"),
    ("bore + 4 mm (typical", "where a figure comes from that is not measured"),
];

/// Every bay as it is and with the other unit, as it is printed in all forms of text: name, lines.
fn told(units: &str) -> Vec<(String, Vec<String>)> {
    let mut all = Vec::new();
    for path in all_bays() {
        let mut bay: Value = serde_json::from_str(&fs::read_to_string(&path).unwrap()).unwrap();
        bay["show_units"] = json!(units);
        let bench = Bench::new();
        bench.put("my.bay.json", &bay.to_string());
        let name = |what: &str| format!("{what} of {}", path.display());
        for call in [
            &["check", "my.bay.json", "--notes", "--sources"][..],
            &["compare", "my.bay.json", "--out", "my.html"],
            &["cutlist", "my.bay.json"],
        ] {
            let lines = bench.run(call).out.lines().map(str::to_owned).collect();
            all.push((name(call[0]), lines));
        }
        bench.run(&["sheet", "my.bay.json", "--out", "sheet.html"]);
        // The cut length, which stands in the other unit too: a tape may have either.
        let report: Value =
            serde_json::from_str(&bench.run(&["check", "my.bay.json", "--json"]).out).unwrap();
        let cut = |run: &Value| match units {
            "inch" => format!("{} mm", run["bench_mm"]),
            _ => format!("{} in", run["bench_inch"].as_str().unwrap()),
        };
        let cuts: Vec<String> = report["runs"].as_array().unwrap().iter().map(cut).collect();
        let sheet = words(&bench.text("sheet.html"));
        assert!(!cuts.is_empty() && cuts.iter().all(|cut| sheet.contains(cut)), "{cuts:?}");
        all.push((name("sheet"), sheet.into_iter().filter(|line| !cuts.contains(line)).collect()));
        if bench.path("my.html").exists() {
            all.push((name("page of compare"), words(&bench.text("my.html"))));
        }
    }
    all
}

/// What a page says, without its marks.
fn words(page: &str) -> Vec<String> {
    let body = page.split_once("<body").unwrap().1;
    let pieces = body.split('<').filter_map(|piece| piece.split_once('>'));
    pieces.map(|(_, words)| words.replace('\u{a0}', " ").trim().to_owned()).collect()
}

/// Whether a figure in one of these units stands here.
fn has_one(line: &str, units: &[&str]) -> bool {
    units.iter().any(|unit| {
        line.match_indices(unit).any(|(at, _)| {
            let before = line[..at].trim_end_matches([' ', '-']);
            let after = line[at + unit.len()..].chars().next();
            let is_figure = before.ends_with(|c: char| c.is_ascii_digit());
            let is_whole = after.is_none_or(|c| !c.is_alphanumeric() && !"/·³²".contains(c));
            // The longer ones are known without a figure before them.
            let is_known = unit.len() > 3 && !line[..at].ends_with(char::is_alphabetic);
            (is_figure || is_known) && is_whole
        })
    })
}

fn no_figure_in(others: &[&str], units: &str) {
    for (name, lines) in told(units) {
        for line in &lines {
            let is_allowed = ALLOWED.iter().any(|(words, _)| line.contains(words));
            assert!(is_allowed || !has_one(line, others), "{name} in {units}: {line}");
        }
    }
}

#[test]
fn a_bay_in_inches_is_told_in_inches_throughout() {
    no_figure_in(&METRIC, "inch");
}

#[test]
fn a_bay_in_millimetres_is_told_in_metric_units_throughout() {
    no_figure_in(&INCH, "mm");
}

/// What the others look for is there to be found.
#[test]
fn each_unit_is_found_where_it_is_used() {
    for (units, own) in [
        (
            "inch",
            &["in", "ft", "psi", "°F", "US gal/min", "ft/s", "lb", "lb-in", "ft·lbf", "cSt"][..],
        ),
        ("mm", &["mm", "bar", "°C", "L/min", "m/s", "kg", "J", "N·m", "kg/m³", "mm²/s"]),
    ] {
        let all = told(units);
        for unit in own {
            assert!(
                all.iter().any(|(_, lines)| lines.iter().any(|line| has_one(line, &[unit]))),
                "{unit}"
            );
        }
        for (words, why) in ALLOWED.into_iter().filter(|_| units == "inch") {
            let is_used = all.iter().any(|(_, lines)| lines.iter().any(|l| l.contains(words)));
            assert!(is_used, "{words} ({why})");
        }
    }
}
