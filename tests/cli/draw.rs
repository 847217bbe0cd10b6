//! `draw`: views in true scale, read back by the program's own DXF reader and by a reader of lines.

use std::collections::BTreeMap;

use dxf::Drawing;
use dxf::entities::EntityType;
use glam::{DVec2, DVec3};
use hosewright::document::file::{load, outline_from_dxf};
use hosewright::drawing::View;
use hosewright::engine::solve_whole;
use hosewright::export::true_scale::Layer;
use hosewright::model::Shape;

use crate::bench::{Bench, all_bays, demo_bays};

fn drawn(bench: &Bench, bay: &str, view: View, out: &str) -> Vec<u8> {
    let args = ["draw", bay, "--view", view.word(), "--out", out];
    let ended = bench.run(&args);
    assert!(ended.wrote(out).starts_with(view.word()), "{ended:?}");
    bench.bytes(out)
}

fn of_layers(bytes: &[u8]) -> BTreeMap<String, Vec<EntityType>> {
    let drawing = Drawing::load(&mut std::io::Cursor::new(bytes)).unwrap();
    let mut found = BTreeMap::<String, Vec<EntityType>>::new();
    for entity in drawing.entities() {
        found.entry(entity.common.layer.clone()).or_default().push(entity.specific.clone());
    }
    found
}

fn has_point(lines: &[Vec<DVec2>], at: DVec2) -> bool {
    lines.iter().flatten().any(|p| p.distance(at) < 1e-6)
}

#[test]
fn the_programs_own_reader_finds_corners_and_hose_ends_where_they_are_in_the_bay() {
    let bench = Bench::new();
    for path in demo_bays() {
        let bay = load(&path).unwrap();
        let solution = solve_whole(&bay, &bay.routings[0]);
        for view in View::ALL {
            let bytes = drawn(&bench, path.to_str().unwrap(), view, "view.dxf");
            let read = outline_from_dxf(&bytes, 0.01).unwrap();
            let mut corners = 0;
            for obstacle in &bay.obstacles {
                let Shape::Box { min, max } = obstacle.shape else { continue };
                for corner in [min, max] {
                    assert!(has_point(&read.lines, view.flat(corner)), "{} {view:?}", obstacle.id);
                    corners += 1;
                }
            }
            assert!(corners > 4);
            for run in &solution.runs {
                let run = run.as_ref().unwrap();
                for end in [&run.from, &run.to] {
                    assert!(has_point(&read.lines, view.flat(end.frame.seat)), "a seat");
                    assert!(has_point(&read.lines, view.flat(end.frame.exit)), "where hose begins");
                }
            }
        }
    }
}

#[test]
fn ports_are_circles_about_their_seats_and_each_hose_is_one_line() {
    let bench = Bench::new();
    for path in demo_bays() {
        let bay = load(&path).unwrap();
        for view in View::ALL {
            let layers = of_layers(&drawn(&bench, path.to_str().unwrap(), view, "view.dxf"));
            assert_eq!(layers["HOSES"].len(), bay.routings[0].runs.len());
            let circles = layers["PORTS"].iter().filter_map(|entity| match entity {
                EntityType::Circle(circle) => Some(DVec2::new(circle.center.x, circle.center.y)),
                _ => None,
            });
            let circles: Vec<DVec2> = circles.collect();
            assert_eq!(circles.len(), bay.ports.len());
            for (at, port) in circles.iter().zip(&bay.ports) {
                assert!(at.distance(view.flat(port.at)) < 1e-6, "{} {view:?}", port.id);
            }
        }
    }
}

// Its drawn length is then its true one.
#[test]
fn a_hose_in_the_plane_of_the_view_is_as_long_as_its_centre_line() {
    let bench = Bench::with_changed_bay(|bay| {
        for port in bay["ports"].as_array_mut().unwrap() {
            port["at"][2] = 0.into();
            let toward = &mut port["toward"];
            toward[2] = 0.into();
            if toward[0] == 0 && toward[1] == 0 {
                toward[1] = 1.into();
            }
        }
        for run in bay["routings"][0]["runs"].as_array_mut().unwrap() {
            run["via"] = serde_json::json!([]);
            for side in ["from", "to"] {
                run[side]["clock_deg"] = 90.into();
            }
        }
    });
    let bay = load(&bench.path("my.bay.json")).unwrap();
    let solution = solve_whole(&bay, &bay.routings[0]);
    let layers = of_layers(&drawn(&bench, "my.bay.json", View::Plan, "view.dxf"));
    let mut bends = 0;
    for (entity, run) in layers["HOSES"].iter().zip(&solution.runs) {
        let run = run.as_ref().unwrap();
        let drawn = match entity {
            EntityType::Line(line) => (line.p2.x - line.p1.x).hypot(line.p2.y - line.p1.y),
            EntityType::Polyline(line) => {
                let vertices: Vec<_> = line.vertices().collect();
                bends += vertices.iter().filter(|v| v.bulge != 0.0).count();
                vertices.windows(2).map(|w| arc_length(w[0], w[1])).sum()
            }
            other => panic!("{other:?}"),
        };
        assert!((drawn - run.centreline_mm).abs() < 1e-5, "{drawn} {}", run.centreline_mm);
    }
    assert!(bends > 0, "there are bends, drawn as arcs");
}

/// An arc of bulge b turns through θ = 4 atan b, and is θ/2 / sin(θ/2) times its chord.
fn arc_length(a: &dxf::entities::Vertex, b: &dxf::entities::Vertex) -> f64 {
    let chord = (b.location.x - a.location.x).hypot(b.location.y - a.location.y);
    let half = 2.0 * a.bulge.abs().atan();
    if half == 0.0 { chord } else { chord * half / half.sin() }
}

#[test]
fn every_layer_is_in_both_files_and_words_of_the_dxf_are_ascii() {
    let bench = Bench::with_changed_bay(|bay| bay["title"] = "Bay 90\u{b0} \u{d6}l <a>".into());
    let bytes = drawn(&bench, "my.bay.json", View::Side, "view.dxf");
    assert!(bytes.is_ascii());
    let text = String::from_utf8(bytes.clone()).unwrap();
    assert!(text.contains("AC1009") && text.contains("Bay 90%%d \\U+00D6l <a>"));
    assert!(!text.contains("$INSUNITS"));
    let drawing = Drawing::load(&mut std::io::Cursor::new(&bytes)).unwrap();
    let names: Vec<String> = drawing.layers().map(|layer| layer.name.clone()).collect();
    let svg = String::from_utf8(drawn(&bench, "my.bay.json", View::Side, "view.svg")).unwrap();
    assert!(svg.contains("Bay 90\u{b0} \u{d6}l &lt;a&gt;"));
    for layer in Layer::ALL {
        assert!(names.iter().any(|name| name == layer.name()), "{names:?}");
        assert_eq!(svg.matches(&format!("<g id=\"{}\"", layer.name())).count(), 1);
    }
    assert!(drawn(&bench, "my.bay.json", View::Side, "view.dxf") == bytes, "the same bytes");
}

#[test]
fn the_svg_is_as_large_in_millimetres_as_its_own_coordinates_and_holds_the_bay() {
    let bench = Bench::new();
    for path in all_bays() {
        let bay = load(&path).unwrap();
        for view in View::ALL {
            let bytes = drawn(&bench, path.to_str().unwrap(), view, "view.svg");
            let svg = String::from_utf8(bytes).unwrap();
            let value = |name: &str| {
                let after = svg.split(&format!(" {name}=\"")).nth(1).unwrap();
                after.split('"').next().unwrap().to_owned()
            };
            let field: Vec<f64> =
                value("viewBox").split(' ').map(|number| number.parse().unwrap()).collect();
            assert_eq!(value("width"), format!("{}mm", field[2]));
            assert_eq!(value("height"), format!("{}mm", field[3]));
            let inside = |p: DVec3| {
                let at = view.flat(p);
                (field[0]..=field[0] + field[2]).contains(&at.x)
                    && (field[1]..=field[1] + field[3]).contains(&-at.y)
            };
            assert!(bay.ports.iter().all(|port| inside(port.at)));
            for obstacle in &bay.obstacles {
                let (min, max) = obstacle.shape.bounds();
                assert!(inside(min) && inside(max), "{}", obstacle.id);
            }
            let opened = svg.matches("<g ").count();
            assert_eq!((opened, svg.matches("</g>").count()), (Layer::ALL.len(), opened));
            assert!(!svg.contains("NaN") && !svg.contains("inf\""));
        }
    }
}

#[test]
fn wrong_calls_are_refused_with_what_there_is() {
    let bench = Bench::with_test_bay();
    let refused = |args: &[&str]| {
        let args = [&["draw", "my.bay.json"][..], args].concat();
        bench.run(&args).is_refused().to_owned()
    };
    assert!(refused(&["--view", "top", "--out", "a.dxf"]).contains("plan, side or front"));
    assert!(refused(&["--view", "plan", "--out", "a.pdf"]).contains(".dxf or .svg"));
    assert!(refused(&["--view", "plan", "--out", "a"]).contains(".dxf or .svg"));
    assert!(refused(&["--view", "plan", "--out", "my.bay.json"]).contains("the bay itself"));
    let gone = refused(&["--view", "plan", "--out", "a.dxf", "--routing", "round"]);
    assert!(gone.contains("no routing \"round\"") && gone.contains("  B  under  "), "{gone}");
    assert_eq!(bench.names(), ["my.bay.json"]);
}
