use std::f64::consts::PI;
use std::fmt::Write as _;

use glam::{DVec2, dvec2};

use super::*;

/// Pairs of codes and values, as they stand in a text DXF.
fn dxf(entities: &str) -> String {
    in_units("", "", entities)
}

fn in_units(header: &str, blocks: &str, entities: &str) -> String {
    let mut text = String::new();
    for (name, inside) in [("HEADER", header), ("BLOCKS", blocks), ("ENTITIES", entities)] {
        let _ = write!(text, "0 SECTION 2 {name} {inside} 0 ENDSEC ");
    }
    text.push_str("0 EOF");
    text.split_whitespace().collect::<Vec<_>>().join("\n") + "\n"
}

const FINE: f64 = 0.01;

fn lines(entities: &str) -> Vec<Vec<DVec2>> {
    outline_from_dxf(dxf(entities).as_bytes(), FINE).unwrap().lines
}

fn length(line: &[DVec2]) -> f64 {
    line.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
}

#[test]
fn a_line_is_its_ends() {
    let read = lines("0 LINE 8 0 10 1 20 2 30 0 11 4 21 6 31 0");
    assert_eq!(read, [vec![dvec2(1.0, 2.0), dvec2(4.0, 6.0)]]);
}

#[test]
fn a_circle_keeps_within_the_accuracy_whatever_it_is() {
    for accuracy in [1.0, 0.1, 0.01, 0.001] {
        let text = dxf("0 CIRCLE 8 0 10 5 20 6 30 0 40 100");
        let read = outline_from_dxf(text.as_bytes(), accuracy).unwrap().lines;
        let line = &read[0];
        let off = |p: DVec2| (p.distance(dvec2(5.0, 6.0)) - 100.0).abs();
        let worst = line.windows(2).map(|pair| off(pair[0].midpoint(pair[1]))).fold(0.0, f64::max);
        assert!(worst <= accuracy && worst > accuracy / 3.0, "{worst} of {accuracy}");
        assert!(line.iter().all(|p| off(*p) < 1e-9));
        assert!(line[0].distance(line[line.len() - 1]) < 1e-9);
    }
}

#[test]
fn an_arc_goes_counter_clockwise_over_its_start() {
    let arc = &lines("0 ARC 8 0 10 0 20 0 30 0 40 10 50 350 51 20")[0];
    assert!((length(arc) - 10.0 * PI / 6.0).abs() < 0.01);
    assert!(arc.iter().all(|p| p.x > 9.3));
}

#[test]
fn a_bulge_of_one_is_half_a_circle_to_the_right() {
    let text = "0 LWPOLYLINE 8 0 90 2 70 0 10 0 20 0 42 1 10 10 20 0";
    let half = &lines(text)[0];
    assert!((length(half) - 5.0 * PI).abs() < 0.05);
    let lowest = half.iter().map(|p| p.y).fold(0.0, f64::min);
    assert!((lowest + 5.0).abs() < 0.02, "counter-clockwise from (0, 0) to (10, 0): {lowest}");
}

#[test]
fn a_closed_polyline_with_corners_rounded_has_the_length_of_its_parts() {
    // A slot: two straights of 20, two half circles of diameter 10, as both kinds of polyline.
    let light = "0 LWPOLYLINE 8 0 90 4 70 1 10 0 20 0 10 20 20 0 42 1 10 20 20 10 10 0 20 10 42 1";
    let old = "0 POLYLINE 8 0 66 1 70 1 10 0 20 0 30 0 \
        0 VERTEX 8 0 10 0 20 0 30 0 0 VERTEX 8 0 10 20 20 0 30 0 42 1 \
        0 VERTEX 8 0 10 20 20 10 30 0 0 VERTEX 8 0 10 0 20 10 30 0 42 1 0 SEQEND 8 0";
    for text in [light, old] {
        let slot = &lines(text)[0];
        assert!((length(slot) - (40.0 + 10.0 * PI)).abs() < 0.1, "{}", length(slot));
        assert_eq!(slot[0], slot[slot.len() - 1]);
    }
}

#[test]
fn an_ellipse_keeps_its_axes() {
    let text = "0 ELLIPSE 8 0 10 1 20 2 30 0 11 0 21 30 31 0 40 0.5 41 0 42 6.283185307179586";
    let oval = &lines(text)[0];
    let (lo, hi) =
        OutlineDrawing { lines: vec![oval.clone()], ..OutlineDrawing::default() }.bounds().unwrap();
    assert!((hi - lo).distance(dvec2(30.0, 60.0)) < 0.1, "{lo} {hi}");
}

#[test]
fn a_spline_is_within_the_accuracy_of_its_curve() {
    // A quarter circle as a rational quadratic: weights 1, √½, 1.
    let text = "0 SPLINE 8 0 70 4 71 2 72 6 73 3 40 0 40 0 40 0 40 1 40 1 40 1 \
        41 1 41 0.7071067811865476 41 1 10 100 20 0 30 0 10 100 20 100 30 0 10 0 20 100 30 0";
    let curve = &lines(text)[0];
    assert!(curve.iter().all(|p| (p.length() - 100.0).abs() < 1e-9), "on the circle");
    assert!(curve.windows(2).all(|pair| 100.0 - pair[0].midpoint(pair[1]).length() < FINE));
    assert!((length(curve) - 50.0 * PI).abs() < 0.1);
}

#[test]
fn blocks_are_drawn_where_they_are_inserted() {
    let block = "0 BLOCK 8 0 2 TAB 70 0 10 1 20 1 30 0 \
        0 LINE 8 0 10 1 20 1 30 0 11 3 21 1 31 0 0 ENDBLK 8 0";
    let insert = "0 INSERT 8 0 2 TAB 10 100 20 50 30 0 41 2 42 2 43 2 50 90";
    let text = in_units("", block, insert);
    let read = outline_from_dxf(text.as_bytes(), FINE).unwrap().lines;
    assert!(read[0][0].distance(dvec2(100.0, 50.0)) < 1e-9);
    assert!(read[0][1].distance(dvec2(100.0, 54.0)) < 1e-9);
}

#[test]
fn a_block_in_itself_ends() {
    let block = "0 BLOCK 8 0 2 LOOP 70 0 10 0 20 0 30 0 0 LINE 8 0 10 0 20 0 30 0 11 3 21 0 31 0 \
        0 INSERT 8 0 2 LOOP 10 1 20 1 30 0 0 INSERT 8 0 2 LOOP 10 2 20 2 30 0 0 ENDBLK 8 0";
    let text = in_units("", block, "0 INSERT 8 0 2 LOOP 10 0 20 0 30 0");
    let read = outline_from_dxf(text.as_bytes(), FINE).unwrap();
    assert!(read.lines.len() > 100);
    assert!(read.left_out.iter().any(|(what, _)| what == "INSERT of no block"));
}

#[test]
fn what_was_drawn_from_behind_is_mirrored() {
    let arc = &lines("0 ARC 8 0 10 20 20 0 30 0 40 10 50 0 51 90 210 0 220 0 230 -1")[0];
    assert!(arc[0].distance(dvec2(-30.0, 0.0)) < 1e-9);
    assert!(arc[arc.len() - 1].distance(dvec2(-20.0, 10.0)) < 1e-9);
}

#[test]
fn the_unit_is_that_of_the_file_and_the_accuracy_is_in_millimetres() {
    let circle = "0 CIRCLE 8 0 10 0 20 0 30 0 40 10";
    let count = |units: &str| {
        let header = if units.is_empty() {
            String::new()
        } else {
            format!("9 $ACADVER 1 AC1015 9 $INSUNITS 70 {units}")
        };
        let text = in_units(&header, "", circle);
        let read = outline_from_dxf(text.as_bytes(), 0.1).unwrap();
        (read.mm_per_unit, read.lines[0].len())
    };
    let (none, plain) = count("");
    assert_eq!(none, None);
    assert_eq!(count("4"), (Some(1.0), plain));
    let (inch, finer) = count("1");
    assert_eq!(inch, Some(25.4));
    assert!(finer > plain * 4);
}

#[test]
fn what_is_left_out_is_counted() {
    let text =
        dxf("0 TEXT 8 0 10 0 20 0 30 0 40 2 1 words 0 LINE 8 0 10 0 20 0 30 0 11 3 21 0 31 0 \
         0 POINT 8 0 10 0 20 0 30 0 0 TEXT 8 0 10 0 20 0 30 0 40 2 1 more");
    let read = outline_from_dxf(text.as_bytes(), FINE).unwrap();
    assert_eq!(left_out_text(&read.left_out).unwrap(), "left out: 1 POINT, 2 TEXT");
}

#[test]
fn what_is_no_drawing_is_told() {
    let why = |bytes: &[u8]| outline_from_dxf(bytes, FINE).unwrap_err().to_string();
    assert_eq!(why(b""), "there is nothing in it that can be drawn");
    assert!(why(b"\x89PNG\r\n\x1a\n").starts_with("not a DXF file"));
    assert_eq!(why(dxf("").as_bytes()), "there is nothing in it that can be drawn");
    let text = dxf("0 TEXT 8 0 10 0 20 0 30 0 40 2 1 words");
    assert_eq!(why(text.as_bytes()), "there is nothing in it that can be drawn (left out: 1 TEXT)");
    let nan = dxf("0 LINE 8 0 10 nan 20 0 30 0 11 3 21 0 31 0");
    assert!(why(nan.as_bytes()).contains("damaged line"), "{}", why(nan.as_bytes()));
}

#[test]
fn no_damage_makes_a_panic() {
    let whole = dxf("0 LWPOLYLINE 8 0 90 2 70 1 10 0 20 0 42 1 10 10 20 0 0 INSERT 8 0 2 X");
    for cut in 0..whole.len() {
        let _ = outline_from_dxf(&whole.as_bytes()[..cut], FINE);
    }
    for (at, _) in whole.match_indices('0') {
        for with in ["-1", "9999999999", "x"] {
            let mut harmed = whole.clone();
            harmed.replace_range(at..=at, with);
            let _ = outline_from_dxf(harmed.as_bytes(), FINE);
        }
    }
}
