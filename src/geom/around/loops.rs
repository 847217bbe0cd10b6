//! Parts end to end.

use std::collections::BTreeMap;

use glam::DVec2;

use super::Corner;
use super::parts::Part;

/// Ends nearer than this are one, mm; it is what the crossings are sure to.
const JOINS_MM: f64 = 1e-5;

/// A place as the square of a grid that it is in.
fn square(p: DVec2) -> [i64; 2] {
    [p.x, p.y].map(|mm| (mm / JOINS_MM).round() as i64)
}

/// The closed lines that parts make. What is doubled counts once; what closes to nothing is left out.
pub(super) fn joined(parts: Vec<Part>) -> Vec<Vec<Corner>> {
    let parts = each_once(parts);
    let mut starts: BTreeMap<[i64; 2], Vec<usize>> = BTreeMap::new();
    for (place, part) in parts.iter().enumerate() {
        starts.entry(square(part.ends()[0])).or_default().push(place);
    }
    let mut is_used = vec![false; parts.len()];
    let mut loops = Vec::new();
    for first in 0..parts.len() {
        if is_used[first] {
            continue;
        }
        let begin = parts[first].ends()[0];
        let (mut line, mut place) = (Vec::new(), first);
        let is_closed = loop {
            is_used[place] = true;
            line.push(parts[place].start());
            let end = parts[place].ends()[1];
            match next(&starts, &parts, &is_used, end) {
                Some(more) => place = more,
                None => break end.distance(begin) <= 2.0 * JOINS_MM,
            }
        };
        if is_closed && line.len() > 1 {
            loops.push(without_joints(line));
        }
    }
    loops
}

fn each_once(parts: Vec<Part>) -> Vec<Part> {
    let mut seen: BTreeMap<[[i64; 2]; 3], Part> = BTreeMap::new();
    for part in parts {
        let [from, to] = part.ends();
        // A part of no length joins nothing.
        if from.distance(to) > JOINS_MM {
            seen.entry([square(from), square(to), square(part.middle())]).or_insert(part);
        }
    }
    seen.into_values().collect()
}

/// A part not used yet that begins where another ended.
fn next(
    starts: &BTreeMap<[i64; 2], Vec<usize>>,
    parts: &[Part],
    is_used: &[bool],
    end: DVec2,
) -> Option<usize> {
    let [x, y] = square(end);
    let mut best: Option<(f64, usize)> = None;
    for (dx, dy) in (-2..=2).flat_map(|dx| (-2..=2).map(move |dy| (dx, dy))) {
        for place in starts.get(&[x + dx, y + dy]).into_iter().flatten().copied() {
            let away = parts[place].ends()[0].distance(end);
            if !is_used[place] && away <= 2.0 * JOINS_MM && best.is_none_or(|b| away < b.0) {
                best = Some((away, place));
            }
        }
    }
    best.map(|(_, place)| place)
}

/// Straights that go on in one line as one.
fn without_joints(line: Vec<Corner>) -> Vec<Corner> {
    let count = line.len();
    let is_joint = |i: usize| {
        let (before, at, after) = (line[(i + count - 1) % count], line[i], line[(i + 1) % count]);
        let (one, other) = (at.at - before.at, after.at - at.at);
        before.bulge == 0.0
            && at.bulge == 0.0
            && one.perp_dot(other).abs() <= 1e-9 * one.length() * other.length()
            && one.dot(other) > 0.0
    };
    let kept: Vec<Corner> = (0..count).filter(|i| !is_joint(*i)).map(|i| line[i]).collect();
    if kept.len() > 1 { kept } else { line }
}
