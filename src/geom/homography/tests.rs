use glam::{DVec2, dvec2};
use proptest::prelude::*;

use super::*;

const SQUARE: [DVec2; 4] = [dvec2(0.0, 0.0), dvec2(1.0, 0.0), dvec2(1.0, 1.0), dvec2(0.0, 1.0)];

/// Corners of a convex figure, counter-clockwise: a square with each corner pulled about.
fn corners() -> impl Strategy<Value = [DVec2; 4]> {
    let pull = || (-0.24..0.24, -0.24..0.24);
    let frame = (-1e4..1e4, -1e4..1e4, 1e-2..1e4_f64, 0.0..360.0);
    ([pull(), pull(), pull(), pull()], frame).prop_map(|(pulls, (x, y, size, turn))| {
        let turned = Homography::similarity(dvec2(x, y), size, turn);
        let mut corners = SQUARE;
        for (corner, pull) in corners.iter_mut().zip(pulls) {
            *corner = turned.apply(*corner + DVec2::from(pull)).unwrap();
        }
        corners
    })
}

fn size(corners: [DVec2; 4]) -> f64 {
    corners[0].distance(corners[2]).max(corners[1].distance(corners[3]))
}

proptest! {
    #[test]
    fn corners_go_to_corners_and_back(from in corners(), to in corners()) {
        let map = Homography::from_corners(from, to).unwrap();
        let back = map.inverse().unwrap();
        for (a, b) in from.into_iter().zip(to) {
            let reach = to.iter().map(|p| p.length()).fold(size(to), f64::max);
            prop_assert!(map.apply(a).unwrap().distance(b) < 1e-9 * reach);
            let reach = from.iter().map(|p| p.length()).fold(size(from), f64::max);
            prop_assert!(back.apply(b).unwrap().distance(a) < 1e-7 * reach);
        }
    }

    #[test]
    fn what_is_inside_goes_inside_and_straight_lines_stay_straight(
        from in corners(), to in corners(), u in 0.05..0.95, v in 0.05..0.95,
    ) {
        let map = Homography::from_corners(from, to).unwrap();
        let side = |c: [DVec2; 4], i: usize, share: f64| c[i].lerp(c[(i + 1) % 4], share);
        let (a, b) = (side(from, 0, u), side(from, 2, v));
        let [a2, m2, b2] = [a, a.lerp(b, 0.37), b].map(|p| map.apply(p).unwrap());
        let off = (b2 - a2).normalize().perp_dot(m2 - a2).abs();
        prop_assert!(off < 1e-6 * (size(to) + a2.length()), "{off}");
        for i in 0..4 {
            prop_assert!((to[(i + 1) % 4] - to[i]).perp_dot(m2 - to[i]) > 0.0);
        }
    }

    /// Two maps after each other are the map from the first corners to the last.
    #[test]
    fn maps_can_be_put_together(a in corners(), b in corners(), c in corners()) {
        let one = Homography::from_corners(a, b).unwrap();
        let two = Homography::from_corners(b, c).unwrap();
        let whole = Homography::from_corners(a, c).unwrap();
        let middle = a.iter().sum::<DVec2>() / 4.0;
        let reach = c.iter().map(|p| p.length()).fold(size(c), f64::max);
        let (p, q) = (one.then(&two).apply(middle).unwrap(), whole.apply(middle).unwrap());
        prop_assert!(p.distance(q) < 1e-6 * reach);
    }

    #[test]
    fn any_points_have_an_answer(numbers in prop::array::uniform16(prop::num::f64::ANY)) {
        let four = |at: usize| [0, 2, 4, 6].map(|k| dvec2(numbers[at + k], numbers[at + k + 1]));
        if let Ok(map) = Homography::from_corners(four(0), four(8)) {
            prop_assert!(map.apply(four(0)[0]).is_none_or(DVec2::is_finite));
        }
    }
}

#[test]
fn what_gives_no_map_says_why() {
    let why = |from: [DVec2; 4]| Homography::from_corners(from, SQUARE).unwrap_err();
    let [a, b, c, d] = SQUARE;
    assert_eq!(why([a, b, dvec2(2.0, 0.0), d]), HomographyError::OnOneLine);
    assert_eq!(why([a, b, b, d]), HomographyError::OnOneLine);
    assert_eq!(why([a; 4]), HomographyError::OnOneLine);
    assert_eq!(why([a, b, d, c]), HomographyError::NotConvex, "crossed");
    assert_eq!(why([a, b, dvec2(0.2, 0.2), d]), HomographyError::NotConvex, "dented");
    assert_eq!(why([d, c, b, a]), HomographyError::Mirrored);
    assert_eq!(why([a, b, c, dvec2(f64::NAN, 0.0)]), HomographyError::NotFinite);
}

#[test]
fn a_horizon_is_told() {
    // A floor that goes away from the viewer: its two far corners draw together.
    let seen = [dvec2(0.0, 0.0), dvec2(4.0, 0.0), dvec2(3.0, 1.0), dvec2(1.0, 1.0)];
    let map = Homography::from_corners(seen, SQUARE).unwrap();
    // The sides meet at (2, 2): that is the horizon.
    assert!(map.apply(dvec2(2.0, 1.9)).unwrap().y > 5.0);
    assert_eq!(map.apply(dvec2(2.0, 2.1)), None);
    assert!(map.depth(dvec2(2.0, 2.0)).abs() < 1e-12);
    assert!(!map.is_affine());
}

#[test]
fn pixels_are_counted_downwards() {
    let map = Homography::of_image(dvec2(100.0, 50.0), 0.5, 0.0);
    assert_eq!(map.apply(dvec2(10.0, 20.0)), Some(dvec2(105.0, 40.0)));
    let turned = Homography::of_image(dvec2(100.0, 50.0), 0.5, 90.0);
    assert_eq!(turned.apply(dvec2(10.0, 20.0)), Some(dvec2(110.0, 55.0)));
    assert!(map.is_affine());
}
