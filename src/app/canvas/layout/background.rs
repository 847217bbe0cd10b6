//! Photos on the screen: a net of small squares of the photo, each corner put where the map takes
//! it, so that a photo straightened in perspective is straight. Pure and in f64.

use glam::{DVec2, dvec2};

use crate::geom::Homography;

/// A net over a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Net {
    /// Corners: where in the photo (0 to 1 each way), and where in the plane of the view, mm.
    pub knots: Vec<(DVec2, DVec2)>,
    /// Three places in `knots` each.
    pub triangles: Vec<[u32; 3]>,
}

/// Squares along each side of a net.
const MESHES: u32 = 48;
/// Nothing is drawn that the photo stretches beyond this many times what it does in its middle:
/// towards the horizon it would be drawn to infinity.
const MOST_STRETCH: f64 = 8.0;

/// The net over a photo of `size_px`, under a map from its pixels to the plane. A photo that is
/// not in perspective needs two triangles only.
pub fn net(map: &Homography, size_px: DVec2) -> Net {
    let meshes = if map.is_affine() { 1 } else { MESHES };
    let side = meshes + 1;
    let share = |i: u32| f64::from(i) / f64::from(meshes);
    let shares: Vec<f64> = (0..side).map(share).collect();
    let nearest = corners().map(|at| map.depth(at * size_px)).into_iter().fold(0.0, f64::max);
    let mut net = Net { knots: Vec::new(), triangles: Vec::new() };
    let mut places = Vec::with_capacity((side * side) as usize);
    for &v in &shares {
        for &u in &shares {
            let at = dvec2(u, v);
            let seen = map.depth(at * size_px) * MOST_STRETCH > nearest;
            let knot = if seen { map.apply(at * size_px) } else { None };
            places.push(knot.map(|place| {
                net.knots.push((at, place));
                net.knots.len() as u32 - 1
            }));
        }
    }
    for y in 0..meshes {
        for x in 0..meshes {
            let knot = |dx: u32, dy: u32| places[((y + dy) * side + x + dx) as usize];
            if let [Some(a), Some(b), Some(c), Some(d)] =
                [knot(0, 0), knot(1, 0), knot(1, 1), knot(0, 1)]
            {
                net.triangles.extend([[a, b, c], [a, c, d]]);
            }
        }
    }
    net
}

fn corners() -> [DVec2; 4] {
    [dvec2(0.0, 0.0), dvec2(1.0, 0.0), dvec2(1.0, 1.0), dvec2(0.0, 1.0)]
}

/// Where the edge of a photo lies in the plane, as far as it can be seen; counter-clockwise.
pub fn edge(map: &Homography, size_px: DVec2) -> Option<[DVec2; 4]> {
    let seen = corners().map(|at| map.apply(at * size_px));
    let [Some(a), Some(b), Some(c), Some(d)] = seen else { return None };
    Some([d, c, b, a])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::straighten;

    /// A floor 800 mm by 600 mm seen at a slant: its far side is 60 % as long as the near one.
    fn slanted() -> (Homography, [DVec2; 4]) {
        let corners = [
            dvec2(600.0, 2600.0),
            dvec2(3400.0, 2600.0),
            dvec2(2840.0, 700.0),
            dvec2(1160.0, 700.0),
        ];
        (straighten(corners, dvec2(800.0, 600.0)).unwrap(), corners)
    }

    const SIZE: DVec2 = dvec2(4000.0, 3000.0);

    /// Where the net draws a place of the photo.
    fn drawn(net: &Net, at: DVec2) -> Option<DVec2> {
        net.triangles.iter().find_map(|triangle| {
            let [a, b, c] = triangle.map(|k| net.knots[k as usize]);
            let (e, f, g) = (b.0 - a.0, c.0 - a.0, at - a.0);
            let whole = e.perp_dot(f);
            let (s, t) = (g.perp_dot(f) / whole, e.perp_dot(g) / whole);
            let inside = s >= -1e-9 && t >= -1e-9 && s + t <= 1.0 + 1e-9;
            inside.then_some(a.1 + (b.1 - a.1) * s + (c.1 - a.1) * t)
        })
    }

    #[test]
    fn a_photo_in_perspective_is_drawn_within_half_a_thousandth() {
        let (map, corners) = slanted();
        let net = net(&map, SIZE);
        let mut worst: f64 = 0.0;
        for i in 0..=40 {
            for k in 0..=40 {
                let (s, t) = (f64::from(i) / 40.0, f64::from(k) / 40.0);
                let low = corners[0].lerp(corners[1], s);
                let high = corners[3].lerp(corners[2], s);
                let px = low.lerp(high, t);
                let off = drawn(&net, px / SIZE).unwrap().distance(map.apply(px).unwrap());
                worst = worst.max(off);
            }
        }
        assert!(worst < 0.0005 * 800.0, "{worst} mm of 800");
        assert!(worst > 1e-6, "it is a net, not the map itself");
    }

    #[test]
    fn a_photo_laid_flat_is_two_triangles() {
        let map = Homography::of_image(dvec2(5.0, 6.0), 0.5, 30.0);
        let net = net(&map, SIZE);
        assert_eq!((net.knots.len(), net.triangles.len()), (4, 2));
        for (at, place) in net.knots {
            assert_eq!(map.apply(at * SIZE), Some(place));
        }
        assert!(edge(&map, SIZE).is_some());
    }

    #[test]
    fn nothing_is_drawn_at_the_horizon() {
        // The same floor, photographed so that the upper part of the photo is sky.
        let corners = [
            dvec2(200.0, 2900.0),
            dvec2(3800.0, 2900.0),
            dvec2(2400.0, 1900.0),
            dvec2(1600.0, 1900.0),
        ];
        let map = straighten(corners, dvec2(800.0, 600.0)).unwrap();
        let net = net(&map, SIZE);
        assert!(net.triangles.len() < 2 * 48 * 48);
        assert!(drawn(&net, dvec2(0.5, 0.1)).is_none(), "sky");
        assert!(drawn(&net, dvec2(0.5, 0.9)).is_some(), "floor");
        assert!(net.knots.iter().all(|(_, place)| place.length() < 20_000.0));
        assert_eq!(edge(&map, SIZE), None);
    }
}
