//! Hostile and degenerate bays through every output: structure holds, every number is finite, no output
//! is without end.

use std::fs;
use std::path::Path;

use dxf::Drawing;
use dxf::entities::EntityType;
use hosewright::document::file::load;
use hosewright::units::is_plain;
use serde_json::{Value, json};

use crate::bench::{Bench, demo_bays, test_bay};
use crate::csv::records;

/// Names that may stand in a bay, and mean something else in every format.
const NAMES: [&str; 8] = [
    "=cmd|' /C calc'!A1",
    "</title><script>alert(1)</script>",
    "\"><img src=x onerror=\"a\">&amp;",
    "]]> --> <!-- <?xml?>",
    "%%d%%u\\U+0041 \\P{\\H9x;}",
    ") Tj ET /JavaScript (x) >> endobj",
    "@SUM(1+1)*,\";'",
    "Öl → −6 ホース שמן \u{1f600}",
];

/// The test bay with a hostile name wherever there is one.
fn hostile() -> Bench {
    Bench::with_changed_bay(|bay| {
        let mut names = NAMES.iter().cycle();
        let mut name = || Value::from(*names.next().unwrap());
        bay["title"] = name();
        for list in ["ports", "obstacles"] {
            for one in bay[list].as_array_mut().unwrap() {
                one["name"] = name();
            }
        }
        for routing in bay["routings"].as_array_mut().unwrap() {
            routing["name"] = name();
            for run in routing["runs"].as_array_mut().unwrap() {
                run["name"] = name();
            }
        }
    })
}

fn written(bench: &Bench, call: &[&str], name: &str) -> Vec<u8> {
    let ended = bench.run(&[call, &[name]].concat());
    assert_ne!(ended.status, Some(2), "{call:?}: {ended:?}");
    bench.bytes(name)
}

const SHEET: [&str; 3] = ["sheet", "my.bay.json", "--out"];

#[test]
fn csv_holds_with_hostile_names() {
    let bench = hostile();
    for (call, name) in [
        (&SHEET[..], "a.csv"),
        (&["compare", "my.bay.json", "--out"], "b.csv"),
        (&["cutlist", "my.bay.json", "--csv"], "c.csv"),
    ] {
        let text = String::from_utf8(written(&bench, call, name)).unwrap();
        let rows = records(&text);
        assert!(rows.iter().all(|row| row.len() == rows[0].len()), "{name}");
        for field in rows.iter().flatten() {
            let is_number = field.parse::<f64>().is_ok();
            assert!(is_number || !field.starts_with(['=', '+', '-', '@']), "{field}");
            assert!(field.chars().all(is_plain), "{field:?}");
        }
    }
}

/// Tags are ours alone: a name is never one, nor ends an attribute.
fn only_our_tags(text: &str, name: &str) {
    for part in text.split('<').skip(1) {
        let tag: String = part.chars().take_while(|c| !" >/\n".contains(*c)).collect();
        assert!(!["script", "img", "?xml?"].contains(&tag.as_str()), "{name}: <{part}");
    }
    assert!(!text.contains("onerror=\""), "{name}");
    assert!(!text.contains("]]>"), "{name}");
}

fn tags_are_closed(text: &str, tags: &[&str]) {
    for tag in tags {
        let count = |what: String| text.matches(&what).count();
        let opened = count(format!("<{tag}>")) + count(format!("<{tag} "));
        assert!(opened > 0, "{tag}");
        assert_eq!(opened, count(format!("</{tag}>")), "{tag}");
    }
}

#[test]
fn html_holds_with_hostile_names() {
    let bench = hostile();
    for (call, name) in [(&SHEET[..], "a.html"), (&["compare", "my.bay.json", "--out"], "b.html")] {
        let text = String::from_utf8(written(&bench, call, name)).unwrap();
        only_our_tags(&text, name);
        tags_are_closed(&text, &["html", "head", "title", "body", "main"]);
    }
}

const DRAW: [&str; 5] = ["draw", "my.bay.json", "--view", "plan", "--out"];

#[test]
fn svg_holds_with_hostile_names() {
    let bench = hostile();
    let text = String::from_utf8(written(&bench, &DRAW, "a.svg")).unwrap();
    only_our_tags(text.trim_start_matches("<?xml"), "a.svg");
    tags_are_closed(&text, &["svg", "title", "g", "text"]);
}

#[test]
fn dxf_holds_with_hostile_names() {
    let bench = hostile();
    let bytes = written(&bench, &DRAW, "a.dxf");
    let sound = Bench::with_test_bay();
    let plain = written(&sound, &DRAW, "a.dxf");
    let count = |bytes: &[u8]| {
        let drawing = Drawing::load(&mut std::io::Cursor::new(bytes)).unwrap();
        // Where words find room, and the lines to them, hangs on how long they are.
        let is_shape =
            |one: &EntityType| matches!(one, EntityType::Polyline(_) | EntityType::Circle(_));
        drawing.entities().filter(|one| is_shape(&one.specific)).count()
    };
    assert_eq!(count(&bytes), count(&plain));
    assert!(bytes.iter().all(|byte| *byte == b'\n' || (b' '..=b'~').contains(byte)));
}

#[test]
fn pdf_holds_with_hostile_names() {
    let bench = hostile();
    for (call, name) in [
        (&SHEET[..], "a.pdf"),
        (&["labels", "my.bay.json", "--out"], "b.pdf"),
        (&["template", "my.bay.json", "feed", "--out"], "c.pdf"),
    ] {
        let bytes = written(&bench, call, name);
        let text = String::from_utf8_lossy(&bytes);
        assert!(text.starts_with("%PDF-") && text.trim_end().ends_with("%%EOF"), "{name}");
        assert_eq!(text.matches("startxref").count(), 1, "{name}");
        // Parentheses in a string are escaped; what says what the document is, is XML in a stream.
        let (before, rest) = text.split_once("<?xpacket begin").unwrap_or((&text, ""));
        let (about, after) = rest.split_once("<?xpacket end").unwrap_or(("", rest));
        assert!(!before.contains(") Tj ET /JavaScript ("), "{name}");
        assert!(!after.contains(") Tj ET /JavaScript ("), "{name}");
        assert!(!about.contains("<script") && !about.contains("<img"), "{name}");
    }
}

fn has_number_not_finite(text: &str) -> Option<String> {
    let is_word = |c: char| c.is_ascii_alphanumeric() || c == '_';
    let mut words = text.split(|c: char| !is_word(c));
    words.find(|word| ["nan", "inf", "infinity"].contains(&word.to_ascii_lowercase().as_str())).map(
        |word| {
            let at = text.find(word).unwrap_or(0);
            text.chars().skip(at.saturating_sub(60)).take(160).collect()
        },
    )
}

/// Bays at the edge of what is accepted.
fn degenerate() -> Vec<(String, Value)> {
    // One routing of two hoses: each of them goes through every output.
    let bay = || -> Value {
        let text = fs::read_to_string(test_bay()).unwrap();
        let mut bay: Value = serde_json::from_str(&text).unwrap();
        let routings = bay["routings"].as_array_mut().unwrap();
        routings.truncate(1);
        routings[0]["runs"].as_array_mut().unwrap().truncate(2);
        bay
    };
    let mut found = Vec::new();
    for (name, min, max) in [
        ("flat", [140, -160, 20], [560, 80, 20]),
        ("upright", [140, 10, -120], [560, 10, 160]),
        ("across", [200, -160, -120], [200, 80, 160]),
        ("edge", [200, 10, -120], [200, 10, 160]),
        ("point", [200, 10, 20], [200, 10, 20]),
    ] {
        let mut one = bay();
        for obstacle in one["obstacles"].as_array_mut().unwrap().iter_mut().take(2) {
            obstacle["kind"] = "box".into();
            obstacle["min"] = json!(min);
            obstacle["max"] = json!(max);
            obstacle["nature"] = "hot".into();
            obstacle["min_clearance"] = 50.into();
        }
        found.push((format!("box-{name}"), one));
    }
    let mut zero = bay();
    for port in zero["ports"].as_array_mut().unwrap() {
        port["at"] = json!([0, 0, 0]);
    }
    for routing in zero["routings"].as_array_mut().unwrap() {
        for run in routing["runs"].as_array_mut().unwrap() {
            run["via"] = json!([]);
            run["slack_pct"] = 0.into();
            for side in ["from", "to"] {
                for key in ["along", "across", "socket", "straight"] {
                    run[side][key] = 0.into();
                }
            }
        }
    }
    found.push(("zero".into(), zero.clone()));
    for run in zero["routings"][0]["runs"].as_array_mut().unwrap() {
        run["via"] = json!([{ "kind": "clamp", "at": [0, 0, 0], "along": [1, 0, 0], "grip": 0, "straight": 0 },
            { "kind": "corner", "at": [0, 0, 0], "radius": 0 }]);
    }
    found.push(("zero-via".into(), zero));
    let mut none = bay();
    for routing in none["routings"].as_array_mut().unwrap() {
        routing["runs"] = json!([]);
    }
    found.push(("no-hose".into(), none));
    let mut one = bay();
    for routing in one["routings"].as_array_mut().unwrap() {
        routing["runs"].as_array_mut().unwrap().truncate(1);
    }
    one["obstacles"] = json!([]);
    found.push(("one-hose".into(), one));
    found.push((
        "empty".into(),
        json!({ "format": "hosewright-bay", "version": 1, "routings": [{ "id": "o" }] }),
    ));
    found
}

/// Every output of a bay; each is asked for numbers that are not finite, and what was found is told.
fn walk(bench: &Bench, bay: &Path, all: &mut Vec<String>) {
    let loaded = load(bay).unwrap();
    let file = bay.to_str().unwrap();
    let mut check = |what: &str, bytes: &[u8]| {
        let odd = has_number_not_finite(&String::from_utf8_lossy(bytes));
        all.extend(odd.map(|odd| format!("{file}, {what}: {odd}")));
    };
    let json = bench.run(&["check", file, "--json"]);
    assert!(!json.err.contains("panicked") && json.status != Some(2), "{file}: {json:?}");
    check("check", json.out.as_bytes());
    let list = bench.run(&["cutlist", file, "--csv", "list.csv", "--json", "--force"]);
    assert!(!list.err.contains("panicked") && list.status != Some(2), "{file}: {list:?}");
    check("cutlist", list.out.as_bytes());
    check("cutlist --csv", &bench.bytes("list.csv"));
    let mut write = |call: &[&str], name: &str| {
        let ended = bench.run(&[call, &[name, "--force"]].concat());
        assert_eq!(ended.status.map(|status| status < 2), Some(true), "{file} {call:?}: {ended:?}");
        // What a PDF draws with is packed; its words are not numbers.
        if Path::new(name).extension().is_none_or(|ending| ending != "pdf") {
            check(name, &bench.bytes(name));
        }
    };
    for ending in ["pdf", "html", "csv", "json"] {
        write(&["sheet", file, "--out"], &format!("sheet.{ending}"));
        if loaded.routings.len() > 1 {
            write(&["compare", file, "--out"], &format!("compare.{ending}"));
        }
    }
    write(&["labels", file, "--out"], "labels.pdf");
    for view in ["plan", "side", "front"] {
        for ending in ["dxf", "svg"] {
            write(&["draw", file, "--view", view, "--out"], &format!("{view}.{ending}"));
        }
    }
    if let Some(run) = loaded.routings[0].runs.first() {
        write(&["template", file, &run.id, "--out"], "template.pdf");
    }
}

#[test]
fn no_output_of_any_bay_has_a_number_that_is_not_finite() {
    let bench = Bench::new();
    let mut all = Vec::new();
    for path in demo_bays() {
        walk(&bench, &path, &mut all);
    }
    for (name, bay) in degenerate() {
        let file = format!("{name}.bay.json");
        bench.put(&file, &bay.to_string());
        walk(&bench, &bench.path(&file), &mut all);
    }
    let broken = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/broken");
    for entry in fs::read_dir(broken).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "json") && load(&path).is_ok() {
            walk(&bench, &path, &mut all);
        }
    }
    assert!(all.is_empty(), "{}", all.join("\n"));
}

/// A straight hose of this length between two ports.
fn straight(length_mm: f64) -> Bench {
    Bench::with_changed_bay(|bay| {
        bay["obstacles"] = json!([]);
        for port in bay["ports"].as_array_mut().unwrap() {
            port.as_object_mut().unwrap().remove("on");
        }
        bay["ports"][0] = json!({ "id": "pump-out", "at": [0, 0, 0], "toward": [1, 0, 0] });
        bay["ports"][1] = json!({ "id": "rail-in", "at": [length_mm, 0, 0], "toward": [-1, 0, 0] });
        let run = &mut bay["routings"][0]["runs"][0];
        run["via"] = json!([]);
        run["dry_fit_mm"] = 100.into();
        for (side, port) in [("from", "pump-out"), ("to", "rail-in")] {
            run[side] = json!({ "port": port, "along": 20, "across": 0, "socket": 20 });
        }
    })
}

#[test]
fn a_template_counts_its_pages_before_it_draws_them() {
    let bench = straight(14_000.0);
    let call = ["template", "my.bay.json", "feed", "--out", "a.pdf"];
    let refused = bench.run(&call);
    let message = refused.is_refused();
    assert!(message.contains("pages; give --yes"), "{message}");
    assert_eq!(bench.names(), ["my.bay.json"]);
    bench.run(&[&call[..], &["--yes"]].concat()).wrote("a.pdf");

    let bench = straight(90_000.0);
    for more in [&[][..], &["--yes"]] {
        let refused = bench.run(&[&call[..], more].concat());
        let message = refused.is_refused();
        assert!(message.contains("pages or more, and at most 200 are written"), "{message}");
    }
    assert!(straight(1e9).run(&call).is_refused().contains("/ports/1/at/0: found 1000000000"));
}
