//! The shadow of a mesh in a view: its border, the folds inside it, and what lies at a distance.
//!
//! Every triangle is laid flat, counter-clockwise, and the sides that meet another of the opposite
//! way cancel. What is left are closed lines whose winding number about a point is the number of
//! triangles over it: not zero just where the mesh is. So nothing has to be joined or cut to fill it.

use std::collections::HashMap;

use glam::{DVec2, DVec3};

use crate::model::Mesh;

/// A mesh laid flat.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shadow {
    /// Closed lines; the mesh is where their winding number is not zero.
    pub loops: Vec<Vec<DVec2>>,
    /// Pieces of its border.
    pub border: Vec<[DVec2; 2]>,
    /// Pieces of folds within it.
    pub folds: Vec<[DVec2; 2]>,
}

/// A side left over, from `a` to `b`, so many times.
struct Side {
    ends: [DVec2; 2],
    keys: [[u64; 2]; 2],
    times: i32,
}

/// More sides than this are not cut where they cross: all count as border then.
const MOST_SIDES: usize = 3000;

/// Lays a mesh flat.
pub fn shadow(mesh: &Mesh, project: &dyn Fn(DVec3) -> DVec2) -> Shadow {
    let sides = sides(mesh, project);
    let (mut border, mut folds) = (Vec::new(), Vec::new());
    if sides.len() > MOST_SIDES {
        border.extend(sides.iter().map(|side| side.ends));
    } else {
        for side in &sides {
            for piece in cut_at_crossings(side, &sides) {
                let [left, right] = beside(piece);
                // Of a closed mesh both are even; a border has nothing on one side.
                let is_border = winding(&sides, left) == 0 || winding(&sides, right) == 0;
                if is_border { border.push(piece) } else { folds.push(piece) }
            }
        }
    }
    Shadow { loops: chained(&sides), border, folds }
}

fn sides(mesh: &Mesh, project: &dyn Fn(DVec3) -> DVec2) -> Vec<Side> {
    let corner = |place: u32| mesh.vertex(place).unwrap_or_default();
    let mut all: Vec<Side> = Vec::new();
    for triangle in mesh.triangles() {
        let flat = triangle.map(|place| project(corner(place)));
        let area = (flat[1] - flat[0]).perp_dot(flat[2] - flat[0]);
        if area == 0.0 || !area.is_finite() {
            continue;
        }
        for (a, b) in [(0, 1), (1, 2), (2, 0)] {
            let (a, b) = if area > 0.0 { (a, b) } else { (b, a) };
            let keys = [key(flat[a]), key(flat[b])];
            let (ends, keys, times) = if keys[0] <= keys[1] {
                ([flat[a], flat[b]], keys, 1)
            } else {
                ([flat[b], flat[a]], [keys[1], keys[0]], -1)
            };
            all.push(Side { ends, keys, times });
        }
    }
    // Sides of equal places meet when sorted, though a mesh file shares no corners; also those that
    // lie behind each other.
    all.sort_by_key(|side| side.keys);
    let same = all.chunk_by(|a, b| a.keys == b.keys).map(|same| {
        let first = &same[0];
        let times = same.iter().map(|side| side.times).sum();
        Side { ends: first.ends, keys: first.keys, times }
    });
    let mut found: Vec<Side> = same.filter(|side| side.times != 0).collect();
    // A closed mesh is everywhere at least two deep; once is enough.
    if found.iter().all(|side| side.times % 2 == 0) {
        for side in &mut found {
            side.times /= 2;
        }
    }
    found
}

fn key(p: DVec2) -> [u64; 2] {
    // Adding zero makes one of the two zeros.
    p.to_array().map(|x| (x + 0.0).to_bits())
}

/// The sides as closed lines, each in its direction and as often as it counts.
fn chained(sides: &[Side]) -> Vec<Vec<DVec2>> {
    let mut leaving: HashMap<[u64; 2], Vec<(DVec2, [u64; 2])>> = HashMap::new();
    let mut starts = Vec::new();
    for side in sides {
        let ([a, b], [from, to]) = if side.times > 0 {
            (side.ends, side.keys)
        } else {
            ([side.ends[1], side.ends[0]], [side.keys[1], side.keys[0]])
        };
        for _ in 0..side.times.unsigned_abs() {
            leaving.entry(from).or_default().push((b, to));
            starts.push((a, from));
        }
    }
    let mut loops = Vec::new();
    for (start, from) in starts {
        let mut line = vec![start];
        let mut at = from;
        while let Some((point, next)) = leaving.get_mut(&at).and_then(Vec::pop) {
            line.push(point);
            at = next;
        }
        if line.len() > 3 {
            line.pop();
            loops.push(line);
        }
    }
    loops
}

/// The pieces of a side between the places where others cross it.
fn cut_at_crossings(side: &Side, sides: &[Side]) -> Vec<[DVec2; 2]> {
    let [a, b] = side.ends;
    let (lo, hi) = (a.min(b), a.max(b));
    let mut shares = vec![0.0, 1.0];
    for other in sides {
        let [c, d] = other.ends;
        if c.max(d).cmplt(lo).any() || c.min(d).cmpgt(hi).any() {
            continue;
        }
        let (r, s) = (b - a, d - c);
        let bend = r.perp_dot(s);
        if bend.abs() < 1e-12 {
            continue;
        }
        let (t, u) = ((c - a).perp_dot(s) / bend, (c - a).perp_dot(r) / bend);
        if t > 0.0 && t < 1.0 && (0.0..=1.0).contains(&u) {
            shares.push(t);
        }
    }
    shares.sort_by(f64::total_cmp);
    shares.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    shares.windows(2).map(|w| [a.lerp(b, w[0]), a.lerp(b, w[1])]).collect()
}

/// Two points close to the middle of a piece, left and right of it.
fn beside([a, b]: [DVec2; 2]) -> [DVec2; 2] {
    let off = (b - a).perp().normalize_or_zero() * (1e-4 * a.distance(b)).max(1e-7);
    let middle = (a + b) / 2.0;
    [middle + off, middle - off]
}

fn winding(sides: &[Side], at: DVec2) -> i32 {
    sides.iter().map(|side| side.times * crossing(side.ends[0], side.ends[1], at)).sum()
}

/// How a line from `a` to `b` crosses the ray to the right of a point: up 1, down −1.
fn crossing(a: DVec2, b: DVec2, at: DVec2) -> i32 {
    if (a.y <= at.y) == (b.y <= at.y) {
        return 0;
    }
    let x = a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y);
    match (x > at.x, b.y > a.y) {
        (false, _) => 0,
        (true, true) => 1,
        (true, false) => -1,
    }
}

impl Shadow {
    /// Whether a point is on the mesh.
    pub fn contains(&self, at: DVec2) -> bool {
        let round = |line: &Vec<DVec2>| -> i32 {
            let next = line.iter().cycle().skip(1);
            line.iter().zip(next).map(|(a, b)| crossing(*a, *b, at)).sum()
        };
        self.loops.iter().map(round).sum::<i32>() != 0
    }

    /// The same in other coordinates.
    #[must_use]
    pub fn mapped(&self, map: &dyn Fn(DVec2) -> DVec2) -> Self {
        let pieces = |pieces: &[[DVec2; 2]]| pieces.iter().map(|piece| piece.map(map)).collect();
        Self {
            loops: self.loops.iter().map(|l| l.iter().map(|p| map(*p)).collect()).collect(),
            border: pieces(&self.border),
            folds: pieces(&self.folds),
        }
    }
}

#[cfg(test)]
mod tests {
    use glam::{dvec2, dvec3};

    use super::*;
    use crate::app::canvas::outline::Outline;

    type Parts = (Vec<DVec3>, Vec<[u32; 3]>);

    fn add_box((vertices, triangles): &mut Parts, min: DVec3, max: DVec3) {
        let first = vertices.len() as u32;
        let quads =
            [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
        for k in 0..8_u32 {
            let pick = |axis: u32| f64::from(k >> axis & 1);
            vertices.push(min + (max - min) * dvec3(pick(0), pick(1), pick(2)));
        }
        for q in quads {
            let q = q.map(|place: u32| place + first);
            triangles.extend([[q[0], q[1], q[2]], [q[0], q[2], q[3]]]);
        }
    }

    /// A T of two boxes that stand in each other.
    fn bracket() -> Mesh {
        let mut parts = Parts::default();
        add_box(&mut parts, DVec3::ZERO, dvec3(100.0, 20.0, 10.0));
        add_box(&mut parts, dvec3(40.0, 5.0, -5.0), dvec3(60.0, 80.0, 15.0));
        Mesh::new(parts.0, parts.1)
    }

    fn from_above(p: DVec3) -> DVec2 {
        p.truncate()
    }

    fn length(pieces: &[[DVec2; 2]]) -> f64 {
        pieces.iter().map(|[a, b]| a.distance(*b)).sum()
    }

    #[test]
    fn the_border_of_two_boxes_goes_round_both_and_their_overlap_is_inside() {
        let shadow = shadow(&bracket(), &from_above);
        // Along the bar and up its ends 100 + 2 × 20, beside the post 2 × 40, round it 2 × 60 + 20.
        assert!((length(&shadow.border) - 360.0).abs() < 1e-6, "{}", length(&shadow.border));
        assert!(length(&shadow.folds) > 0.0);
        for (at, is_on) in [
            (dvec2(50.0, 10.0), true),
            (dvec2(50.0, 50.0), true),
            (dvec2(10.0, 10.0), true),
            (dvec2(10.0, 50.0), false),
            (dvec2(80.0, 50.0), false),
            (dvec2(-1.0, 10.0), false),
        ] {
            assert_eq!(shadow.contains(at), is_on, "{at}");
        }
    }

    #[test]
    fn an_open_sheet_has_a_shadow_whichever_way_it_is_wound() {
        for triangle in [[0, 1, 2], [0, 2, 1]] {
            let corners = vec![DVec3::ZERO, 10.0 * DVec3::X, 10.0 * DVec3::Y];
            let mesh = Mesh::new(corners, vec![triangle]);
            let shadow = shadow(&mesh, &from_above);
            assert!(shadow.contains(dvec2(2.0, 2.0)) && !shadow.contains(dvec2(8.0, 8.0)));
            assert!((length(&shadow.border) - 20.0 - 200.0_f64.sqrt()).abs() < 1e-9);
        }
    }

    #[test]
    fn the_line_at_a_distance_is_at_that_distance() {
        let shadow = shadow(&bracket(), &from_above);
        let lines =
            crate::app::canvas::outline::at_distance(&Outline::Shadow(shadow.clone()), 15.0);
        assert!(!lines.is_empty());
        let mut round = 0.0;
        for line in &lines {
            round += line.windows(2).map(|w| w[0].distance(w[1])).sum::<f64>();
            for p in line {
                let near = shadow.border.iter().map(|[a, b]| {
                    let t = ((*p - *a).dot(*b - *a) / a.distance_squared(*b)).clamp(0.0, 1.0);
                    p.distance(a.lerp(*b, t))
                });
                let near = near.fold(f64::INFINITY, f64::min);
                assert!((near - 15.0).abs() < 0.3, "{p} {near}");
                assert!(!shadow.contains(*p));
            }
        }
        // The border but for the two inner corners' two stretches of 15, and six quarter turns.
        let exact = 360.0 - 4.0 * 15.0 + 6.0 * std::f64::consts::FRAC_PI_2 * 15.0;
        assert!((round / exact - 1.0).abs() < 0.02, "{round} of {exact}");
    }
}
