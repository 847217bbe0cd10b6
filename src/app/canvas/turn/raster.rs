//! What is in front, point by point: triangles are entered with their depth, the nearest one stays.
//! So over and under are right however things pass through each other, and what is under the
//! pointer is a look into a table.

use glam::DVec2;

/// A corner of a triangle on the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// Where, in picture points from the left upper corner.
    pub at: DVec2,
    /// How near the viewer, mm.
    pub depth: f64,
    /// How much light it gets, 0 to 1.
    pub light: f64,
}

/// What is seen at a point of the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// The number under which the triangle was entered.
    pub item: u32,
    /// How near the viewer, mm.
    pub depth: f32,
    /// How much light it gets.
    pub light: u8,
}

/// A picture of depths.
#[derive(Debug, Clone, Default)]
pub struct Raster {
    width: usize,
    height: usize,
    seen: Vec<Seen>,
}

const NOTHING: Seen = Seen { item: u32::MAX, depth: f32::NEG_INFINITY, light: 0 };

impl Raster {
    /// Empties it at a size; its memory is used again.
    pub fn clear(&mut self, width: usize, height: usize) {
        (self.width, self.height) = (width, height);
        self.seen.clear();
        self.seen.resize(width * height, NOTHING);
    }

    /// Its width and height.
    pub fn size(&self) -> [usize; 2] {
        [self.width, self.height]
    }

    /// Row by row from the top; what is nowhere has no item.
    pub fn rows(&self) -> impl Iterator<Item = Option<Seen>> + '_ {
        self.seen.iter().map(|seen| (seen.item != NOTHING.item).then_some(*seen))
    }

    /// What is seen at a place.
    pub fn at(&self, place: DVec2) -> Option<Seen> {
        let cell = place.floor();
        if cell.x < 0.0 || cell.y < 0.0 || cell.x >= self.width as f64 {
            return None;
        }
        let seen = self.seen.get(cell.y as usize * self.width + cell.x as usize)?;
        (seen.item != NOTHING.item).then_some(*seen)
    }

    /// Enters a triangle: of its points those that nothing nearer covers.
    pub fn triangle(&mut self, item: u32, corners: [Corner; 3]) {
        let [a, b, c] = corners;
        let area = (b.at - a.at).perp_dot(c.at - a.at);
        if !area.is_finite() || area.abs() < 1e-9 {
            return;
        }
        let lo = a.at.min(b.at).min(c.at).y.max(0.0);
        let hi = a.at.max(b.at).max(c.at).y.min(self.height as f64);
        // Depth and light are level functions of the place: their steps along a row are constant.
        let slope = |value: fn(&Corner) -> f64| {
            let (u, v) = (value(&b) - value(&a), value(&c) - value(&a));
            let (p, q) = (b.at - a.at, c.at - a.at);
            DVec2::new(u * q.y - v * p.y, v * p.x - u * q.x) / area
        };
        let (deep, lit) = (slope(|k| k.depth), slope(|k| k.light));
        for row in (lo - 0.5).ceil().max(0.0) as usize..self.height {
            let y = row as f64 + 0.5;
            if y >= hi {
                break;
            }
            let Some((from, to)) = span(&corners, y, self.width) else { continue };
            let off = DVec2::new(from as f64 + 0.5, y) - a.at;
            let mut depth = (a.depth + deep.dot(off)) as f32;
            let mut light = ((a.light + lit.dot(off)) * 255.0) as f32;
            let (depth_step, light_step) = (deep.x as f32, (lit.x * 255.0) as f32);
            let start = row * self.width;
            for seen in &mut self.seen[start + from..start + to] {
                if depth > seen.depth {
                    *seen = Seen { item, depth, light: light as u8 };
                }
                depth += depth_step;
                light += light_step;
            }
        }
    }
}

/// The cells of a row whose middles are inside a triangle.
fn span(corners: &[Corner; 3], y: f64, width: usize) -> Option<(usize, usize)> {
    let (mut from, mut to) = (f64::INFINITY, f64::NEG_INFINITY);
    for k in 0..3 {
        let (p, q) = (corners[k].at, corners[(k + 1) % 3].at);
        // Each side owns its upper end, so that a corner counts once.
        if (p.y <= y) != (q.y <= y) {
            let x = p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y);
            from = from.min(x);
            to = to.max(x);
        }
    }
    let from = (from - 0.5).ceil().max(0.0);
    let to = (to - 0.5).ceil().min(width as f64);
    (from < to).then_some((from as usize, to as usize))
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;

    fn corner(x: f64, y: f64, depth: f64) -> Corner {
        Corner { at: dvec2(x, y), depth, light: 0.5 }
    }

    fn square(raster: &mut Raster, item: u32, lo: DVec2, hi: DVec2, depths: [f64; 4]) {
        let k = [
            corner(lo.x, lo.y, depths[0]),
            corner(hi.x, lo.y, depths[1]),
            corner(hi.x, hi.y, depths[2]),
            corner(lo.x, hi.y, depths[3]),
        ];
        raster.triangle(item, [k[0], k[1], k[2]]);
        raster.triangle(item, [k[2], k[3], k[0]]);
    }

    fn count(raster: &Raster, item: u32) -> usize {
        raster.rows().flatten().filter(|seen| seen.item == item).count()
    }

    #[test]
    fn two_triangles_of_a_square_cover_each_point_once() {
        let mut raster = Raster::default();
        raster.clear(40, 30);
        square(&mut raster, 7, dvec2(3.0, 4.0), dvec2(23.0, 14.0), [1.0; 4]);
        assert_eq!(count(&raster, 7), 200);
        assert_eq!(raster.at(dvec2(22.9, 13.9)).map(|seen| seen.item), Some(7));
        assert_eq!(raster.at(dvec2(23.1, 13.9)), None);
    }

    #[test]
    fn the_nearer_one_stays_whichever_comes_first() {
        for order in [[1, 2], [2, 1]] {
            let mut raster = Raster::default();
            raster.clear(20, 20);
            for item in order {
                square(&mut raster, item, DVec2::ZERO, dvec2(20.0, 20.0), [f64::from(item); 4]);
            }
            assert_eq!((count(&raster, 1), count(&raster, 2)), (0, 400));
        }
    }

    #[test]
    fn two_that_pass_through_each_other_are_cut_along_their_common_line() {
        let mut raster = Raster::default();
        raster.clear(20, 20);
        square(&mut raster, 1, DVec2::ZERO, dvec2(20.0, 20.0), [5.0; 4]);
        // From behind at the left to in front at the right: level with the first in the middle.
        square(&mut raster, 2, DVec2::ZERO, dvec2(20.0, 20.0), [0.0, 10.0, 10.0, 0.0]);
        assert_eq!((count(&raster, 1), count(&raster, 2)), (200, 200));
        assert_eq!(raster.at(dvec2(3.0, 10.0)).unwrap().item, 1);
        assert_eq!(raster.at(dvec2(17.0, 10.0)).unwrap().item, 2);
    }

    #[test]
    fn what_is_far_outside_or_flat_or_not_a_number_does_no_harm() {
        let mut raster = Raster::default();
        raster.clear(10, 10);
        raster
            .triangle(1, [corner(-1e7, -1e7, 0.0), corner(1e7, -1e7, 0.0), corner(0.0, 1e7, 0.0)]);
        assert_eq!(count(&raster, 1), 100);
        raster.triangle(2, [corner(1.0, 1.0, 9.0), corner(5.0, 5.0, 9.0), corner(9.0, 9.0, 9.0)]);
        raster.triangle(
            3,
            [corner(f64::NAN, 1.0, 9.0), corner(5.0, 5.0, 9.0), corner(9.0, 1.0, 9.0)],
        );
        assert_eq!((count(&raster, 2), count(&raster, 3)), (0, 0));
    }
}
