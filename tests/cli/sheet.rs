//! `sheet`: the page and the file for programs.

use hosewright::document::file::load;
use hosewright::engine::solve_whole;
use hosewright::units::Length;
use serde_json::Value;

use crate::bench::{Bench, all_bays};

/// Writes the sheet and gives back its text.
fn written(bench: &Bench, bay: &str, routing: &str, ending: &str) -> String {
    let out = format!("sheet.{ending}");
    let args = ["sheet", bay, "--routing", routing, "--date", "2026-01-31", "--out", &out];
    let ended = bench.run(&args);
    assert_eq!((ended.status, ended.out.as_str()), (Some(0), ""), "{ended:?}");
    bench.text(&out)
}

/// The five characters of markup, as the page writes them.
fn escaped(words: &str) -> String {
    words
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
        .replace('\'', "&#39;")
}

/// What the page says of each hose, in order; it may be more than one sheet of paper.
fn of_each_hose(page: &str) -> Vec<&str> {
    page.split(" id=\"hose-").skip(1).collect()
}

#[test]
fn the_page_names_every_hose_with_its_cut_length() {
    let bench = Bench::new();
    for path in all_bays() {
        let bay = load(&path).unwrap();
        for routing in &bay.routings {
            let page = written(&bench, path.to_str().unwrap(), &routing.id, "html");
            let solution = solve_whole(&bay, routing);
            let sections = of_each_hose(&page);
            assert_eq!(sections.len(), routing.runs.len());
            for (i, run) in routing.runs.iter().enumerate() {
                let name = escaped(&run.name);
                let link = format!("<a href=\"#hose-{}\"><b>{} {name}</b></a>", i + 1, i + 1);
                assert!(page.contains(&link), "{link}");
                assert!(sections[i].contains(&format!("<h2>{name}</h2>")), "{name}");
                // Loose sheets of paper say whose they are; the last piece only opens the next one.
                let last = i + 1 == sections.len();
                let papers: Vec<&str> = sections[i].split("<section").collect();
                let own = if last { &papers[..] } else { &papers[..papers.len() - 1] };
                assert!(own.iter().all(|paper| paper.contains(&name)), "{name}");
                // So does the heading that is printed again where the findings take another one.
                if sections[i].contains("<ul class=\"findings\">") && !last {
                    let head = format!("<h3>Found on {name}, hose {}", i + 1);
                    assert!(sections[i].contains(&head), "{name}");
                }
                let cut = Length::from_mm(solution.run(i).unwrap().cut_length_mm);
                for length in [format!("{} in", cut.bench_inch()), cut.bench_mm().to_string()] {
                    assert!(sections[i].contains(&length), "{length} of {name}");
                }
            }
        }
    }
}

#[test]
fn the_page_needs_nothing_but_itself() {
    let bench = Bench::new();
    for path in all_bays() {
        for routing in &load(&path).unwrap().routings {
            let page = written(&bench, path.to_str().unwrap(), &routing.id, "html");
            let small = page.to_ascii_lowercase();
            for outside in [
                "<script",
                "<link",
                "<img",
                "<iframe",
                "<object",
                "<embed",
                "<base",
                "http://",
                "https://",
                "javascript:",
                "@import",
                "url(",
                "src=",
                "xlink",
                "srcset",
                "onload=",
            ] {
                assert!(!small.contains(outside), "{outside} in {}", path.display());
            }
            assert!(page.starts_with("<!DOCTYPE html>"), "no quirks");
            // Read as UTF-8 wherever it is opened from; told in the first 1024 bytes (HTML §4.2.5.4).
            assert!(page[..512].contains("<meta charset=\"utf-8\">"));
            assert!(page.contains("2026-01-31"), "the day that was asked for");
            let all_links = page.matches("href=").count();
            assert_eq!(all_links, page.matches("href=\"#hose-").count(), "links stay inside");
        }
    }
}

const HOSTILE: &str = "<b>&\"'</td><script>alert(1)</script>";

#[test]
fn words_from_outside_are_text_on_the_page() {
    let bench = Bench::with_changed_bay(|bay| {
        bay["title"] = HOSTILE.into();
        bay["notes"] = HOSTILE.into();
        for port in bay["ports"].as_array_mut().unwrap() {
            port["name"] = HOSTILE.into();
        }
        for obstacle in bay["obstacles"].as_array_mut().unwrap() {
            obstacle["name"] = HOSTILE.into();
        }
        let routing = &mut bay["routings"][0];
        routing["name"] = HOSTILE.into();
        routing["runs"][0]["name"] = "<b>&\"".into();
        routing["runs"][0]["service"]["fluid"] = HOSTILE.into();
        routing["runs"][1]["name"] = HOSTILE.into();
    });
    let page = written(&bench, "my.bay.json", "over", "html");
    assert!(page.contains("<h2>&lt;b&gt;&amp;&quot;</h2>"));
    assert!(page.contains(&escaped(HOSTILE)));
    assert!(!page.to_ascii_lowercase().contains("<script"));
    // The page's own bold text has no bare quotes or ampersands behind it.
    assert!(!page.contains("<b>&\""));
    for (at, _) in page.match_indices('&') {
        let end = page[at..].find(';').expect("a character reference ends");
        let named = &page[at..=at + end];
        assert!(["&amp;", "&lt;", "&gt;", "&quot;", "&#39;"].contains(&named), "{named}");
    }
}

/// Every tag that opens is closed, in order: text from outside has broken out of none.
#[test]
fn the_tags_of_the_page_are_paired() {
    const ALONE: [&str; 4] = ["!DOCTYPE", "meta", "br", "wbr"];
    let bench = Bench::new();
    for path in all_bays() {
        for routing in &load(&path).unwrap().routings {
            let page = written(&bench, path.to_str().unwrap(), &routing.id, "html");
            let mut open: Vec<&str> = Vec::new();
            for piece in page.split('<').skip(1) {
                let (tag, _) = piece.split_once('>').expect("a tag ends");
                let name = tag.split([' ', '\n', '/']).find(|part| !part.is_empty()).unwrap();
                if tag.starts_with('/') {
                    assert_eq!(open.pop(), Some(name), "</{name}>");
                } else if !tag.ends_with('/') && !ALONE.contains(&name) {
                    open.push(name);
                }
            }
            assert!(open.is_empty(), "{open:?}");
        }
    }
}

#[test]
fn the_file_for_programs_holds_every_hose_and_the_report() {
    let bench = Bench::new();
    for path in all_bays() {
        let (bay, file) = (load(&path).unwrap(), path.to_str().unwrap());
        for routing in &bay.routings {
            let text = written(&bench, file, &routing.id, "json");
            let sheet: Value = serde_json::from_str(&text).unwrap();
            assert_eq!(sheet["sheet"], "hosewright-sheet");
            assert_eq!(sheet["version"], 1);
            assert_eq!(sheet["routing"], routing.id.as_str());
            assert_eq!(sheet["date"], "2026-01-31");
            let report = bench.run(&["check", file, "--routing", &routing.id, "--json"]).out;
            assert_eq!(sheet["report"], serde_json::from_str::<Value>(&report).unwrap());
            let hoses = sheet["hoses"].as_array().unwrap();
            assert_eq!(hoses.len(), routing.runs.len());
            let runs = sheet["report"]["runs"].as_array().unwrap();
            for ((hose, run), told) in hoses.iter().zip(&routing.runs).zip(runs) {
                assert_eq!(hose["id"], run.id.as_str());
                assert_eq!(hose["name"], run.name.as_str());
                for key in ["cut_length_mm", "bench_mm", "bench_inch", "overall_mm"] {
                    assert_eq!(hose[key], told[key], "{key} of {}", run.id);
                }
            }
        }
    }
}

#[test]
fn a_hose_that_fails_is_marked_wherever_it_stands() {
    let bench = Bench::with_test_bay();
    for routing in ["over", "under"] {
        let json: Value =
            serde_json::from_str(&written(&bench, "my.bay.json", routing, "json")).unwrap();
        let page = written(&bench, "my.bay.json", routing, "html");
        let findings = json["report"]["findings"].as_array().unwrap();
        for (i, hose) in json["hoses"].as_array().unwrap().iter().enumerate() {
            let fails = findings
                .iter()
                .any(|finding| finding["severity"] == "fail" && finding["run"] == hose["id"]);
            assert_eq!(hose["do_not_cut"], fails, "{}", hose["id"]);
            let section = of_each_hose(&page)[i];
            assert_eq!(section.contains("DO NOT CUT YET"), fails, "{}", hose["id"]);
        }
    }
}

#[test]
fn an_older_sheet_is_replaced_and_nothing_is_left_beside_it() {
    let bench = Bench::with_test_bay();
    let bay = bench.bytes("my.bay.json");
    // Of ours, by its mark; anything else is not replaced (tests/cli/force.rs).
    let mark = "<!DOCTYPE html>\n<meta name=\"generator\" content=\"Hosewright\">";
    bench.put("sheet.html", &format!("{mark} an older one"));
    let page = written(&bench, "my.bay.json", "over", "html");
    assert!(!page.contains("an older one"));
    assert_eq!(bench.names(), ["my.bay.json", "sheet.html"]);
    assert_eq!(bench.bytes("my.bay.json"), bay);
}

#[test]
fn what_fails_is_said_on_standard_error_and_the_sheet_still_written() {
    let bench = Bench::with_test_bay();
    let fails = bench.run(&["sheet", "my.bay.json", "--routing", "over", "--out", "a.html"]);
    assert_eq!((fails.status, fails.out.as_str()), (Some(0), ""));
    assert!(fails.wrote("a.html").contains("do not cut yet"), "{fails:?}");
    let fine = bench.run(&["sheet", "my.bay.json", "--routing", "under", "--out", "B.HTML"]);
    let told = fine.wrote("B.HTML");
    assert!(told.contains("routing B, ") && !told.contains("do not cut yet"), "{told}");
    assert_eq!(bench.names(), ["B.HTML", "a.html", "my.bay.json"]);
}
