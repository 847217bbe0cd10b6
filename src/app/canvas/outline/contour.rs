//! The line at a distance from a shadow, by marching over a net of squares (W. Lorensen and H. Cline,
//! 1987, in the plane). Between net points the distance is taken as even, which it nearly is.

use std::collections::HashMap;

use glam::{DVec2, dvec2};

use super::shadow::Shadow;

/// Meshes of the net along the longer side.
const FINE: f64 = 128.0;

struct Net {
    origin: DVec2,
    step: f64,
    columns: usize,
    rows: usize,
    /// Distance to the shadow less the one wanted, row by row; no more than one step past it.
    over: Vec<f64>,
}

/// The line everywhere at a distance from the mesh, as pieces that join: from a net of points
/// whose distance is known, its mesh a hundredth of the whole.
pub(super) fn at_distance(shadow: &Shadow, distance: f64) -> Vec<Vec<DVec2>> {
    let mut points = shadow.border.iter().flatten();
    let Some(first) = points.next() else { return Vec::new() };
    let (lo, hi) = points.fold((*first, *first), |(lo, hi), p| (lo.min(*p), hi.max(*p)));
    if !(distance > 0.0 && lo.is_finite() && hi.is_finite()) {
        return Vec::new();
    }
    let step = ((hi - lo).max_element() + 2.0 * distance) / FINE;
    let origin = lo - distance - 2.0 * step;
    let counts = ((hi - lo + 2.0 * distance) / step).ceil() + 5.0;
    let (columns, rows) = (counts.x as usize, counts.y as usize);
    let mut net = Net { origin, step, columns, rows, over: vec![step; columns * rows] };
    for [a, b] in &shadow.border {
        net.near(*a, *b, distance);
    }
    for row in 0..rows {
        for column in 0..columns {
            let place = row * columns + column;
            // Inside the mesh there is no line, however far its border.
            if shadow.contains(net.point(column, row)) {
                net.over[place] = net.over[place].min(-step);
            }
        }
    }
    net.lines()
}

impl Net {
    fn point(&self, column: usize, row: usize) -> DVec2 {
        self.origin + dvec2(column as f64, row as f64) * self.step
    }

    /// Lets the points about a piece of the border know how near it is.
    fn near(&mut self, a: DVec2, b: DVec2, distance: f64) {
        let reach = distance + self.step;
        let cell = |p: DVec2| ((p - self.origin) / self.step).max(DVec2::ZERO);
        let (lo, hi) = (cell(a.min(b) - reach).floor(), cell(a.max(b) + reach).ceil());
        let length = a.distance_squared(b);
        for row in lo.y as usize..=(hi.y as usize).min(self.rows - 1) {
            for column in lo.x as usize..=(hi.x as usize).min(self.columns - 1) {
                let p = self.point(column, row);
                let t = if length > 0.0 { (p - a).dot(b - a) / length } else { 0.0 };
                let far = p.distance(a.lerp(b, t.clamp(0.0, 1.0))) - distance;
                let over = &mut self.over[row * self.columns + column];
                *over = over.min(far);
            }
        }
    }

    fn lines(&self) -> Vec<Vec<DVec2>> {
        // Every mesh side is crossed once at most; it is known by its first point and its way.
        let mut next: HashMap<(usize, bool), Vec<(usize, bool)>> = HashMap::new();
        let mut order = Vec::new();
        for row in 0..self.rows - 1 {
            for column in 0..self.columns - 1 {
                for (a, b) in self.in_square(row * self.columns + column) {
                    next.entry(a).or_default().push(b);
                    next.entry(b).or_default().push(a);
                    order.push(a);
                }
            }
        }
        let mut lines = Vec::new();
        for start in order {
            let mut line = vec![self.crossed(start)];
            let mut at = start;
            while let Some(to) = next.get_mut(&at).and_then(Vec::pop) {
                if let Some(back) = next.get_mut(&to) {
                    let found = back.iter().position(|side| *side == at);
                    found.map(|place| back.swap_remove(place));
                }
                line.push(self.crossed(to));
                at = to;
            }
            if line.len() > 2 {
                lines.push(line);
            }
        }
        lines
    }

    /// The pieces of the line in one square, by the sides they run between.
    fn in_square(&self, p: usize) -> Vec<((usize, bool), (usize, bool))> {
        let corners = [p, p + 1, p + 1 + self.columns, p + self.columns];
        let sides = [(p, true), (p + 1, false), (p + self.columns, true), (p, false)];
        let inside = corners.map(|corner| self.over[corner] < 0.0);
        let crossed: Vec<(usize, bool)> =
            (0..4).filter(|k| inside[*k] != inside[(k + 1) % 4]).map(|k| sides[k]).collect();
        match crossed[..] {
            [a, b] => vec![(a, b)],
            // Two corners opposite each other: which way round does not matter at this fineness.
            [a, b, c, d] => vec![(a, b), (c, d)],
            _ => Vec::new(),
        }
    }

    /// Where the line crosses a side of the net: along the row (`true`) or up the column.
    fn crossed(&self, (p, along): (usize, bool)) -> DVec2 {
        let q = if along { p + 1 } else { p + self.columns };
        let (a, b) = (self.over[p], self.over[q]);
        let t = if a == b { 0.5 } else { (a / (a - b)).clamp(0.0, 1.0) };
        let [p, q] = [p, q].map(|i| self.point(i % self.columns, i / self.columns));
        p.lerp(q, t)
    }
}
