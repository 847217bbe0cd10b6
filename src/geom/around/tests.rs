use glam::dvec2;

use super::*;

/// Points along outlines, arcs in chords of less than a degree.
fn flattened(outline: &[Corner]) -> Vec<DVec2> {
    let mut points = Vec::new();
    for (i, turn) in outline.iter().enumerate() {
        let next = outline[(i + 1) % outline.len()].at;
        points.push(turn.at);
        if turn.bulge != 0.0 {
            let chord = next - turn.at;
            let b = turn.bulge;
            let middle = turn.at.midpoint(next) + chord.perp() / 2.0 * ((1.0 - b * b) / (2.0 * b));
            let sweep = 4.0 * b.atan();
            points.extend((1..100).map(|k| {
                let turned = DVec2::from_angle(sweep * f64::from(k) / 100.0);
                middle + turned.rotate(turn.at - middle)
            }));
        }
    }
    points
}

/// Twice the area inside, what is to the left counted as more than nothing.
fn area(outlines: &[Vec<Corner>]) -> f64 {
    let of_one = |outline: &Vec<Corner>| {
        let points = flattened(outline);
        let next = points.iter().cycle().skip(1);
        points.iter().zip(next).map(|(p, q)| p.perp_dot(*q)).sum::<f64>() / 2.0
    };
    outlines.iter().map(of_one).sum()
}

fn distance_to(p: DVec2, points: &[DVec2], triangles: &[[u32; 3]]) -> f64 {
    let mut least = f64::INFINITY;
    for t in triangles {
        let t = t.map(|i| points[i as usize]);
        if edges::is_inside(p, &t) {
            return 0.0;
        }
        for (a, b) in [(t[0], t[1]), (t[1], t[2]), (t[2], t[0])] {
            let way = b - a;
            let length = way.length_squared();
            let s = if length > 0.0 { ((p - a).dot(way) / length).clamp(0.0, 1.0) } else { 0.0 };
            least = least.min(p.distance(a + way * s));
        }
    }
    least
}

/// How often the outlines go round a point.
fn winding(p: DVec2, outlines: &[Vec<DVec2>]) -> i32 {
    let mut count = 0;
    for points in outlines {
        for (a, b) in points.iter().zip(points.iter().cycle().skip(1)) {
            let side = (*b - *a).perp_dot(p - *a);
            if a.y <= p.y && b.y > p.y && side > 0.0 {
                count += 1;
            }
            if a.y > p.y && b.y <= p.y && side < 0.0 {
                count -= 1;
            }
        }
    }
    count
}

/// Every point of the outlines at the distance, and every point of the plane inside or outside as it is
/// near or far.
fn is_right(points: &[DVec2], triangles: &[[u32; 3]], distance: f64) -> Vec<Vec<Corner>> {
    let outlines = around(points, triangles, distance);
    let flat: Vec<Vec<DVec2>> = outlines.iter().map(|outline| flattened(outline)).collect();
    for p in flat.iter().flatten() {
        let away = distance_to(*p, points, triangles);
        assert!((away - distance).abs() < 1e-4, "{p} is {away} away, not {distance}");
    }
    let low = points.iter().copied().fold(DVec2::INFINITY, DVec2::min) - 1.5 * distance;
    let high = points.iter().copied().fold(DVec2::NEG_INFINITY, DVec2::max) + 1.5 * distance;
    for (i, j) in (0..31).flat_map(|i| (0..31).map(move |j| (i, j))) {
        let share = dvec2(f64::from(i) + 0.37, f64::from(j) + 0.41) / 31.5;
        let p = low + (high - low) * share;
        let away = distance_to(p, points, triangles);
        if (away - distance).abs() > 0.01 {
            assert_eq!(winding(p, &flat), i32::from(away < distance), "{p} is {away} away");
        }
    }
    outlines
}

/// Two triangles.
fn rectangle(low: DVec2, high: DVec2) -> [DVec2; 4] {
    [low, dvec2(high.x, low.y), high, dvec2(low.x, high.y)]
}

const QUAD: [[u32; 3]; 2] = [[0, 1, 2], [0, 2, 3]];

fn quads(count: u32) -> Vec<[u32; 3]> {
    (0..count).flat_map(|k| QUAD.map(|t| t.map(|i| i + 4 * k))).collect()
}

#[test]
fn a_square_has_four_straights_and_four_quarters() {
    let points = rectangle(dvec2(10.0, 20.0), dvec2(50.0, 60.0));
    let outlines = is_right(&points, &QUAD, 5.0);
    let [outline] = &outlines[..] else { panic!("{outlines:?}") };
    assert_eq!(outline.iter().filter(|turn| turn.bulge > 0.0).count(), 4);
    assert_eq!(outline.len(), 8);
    let wanted = 40.0 * 40.0 + 4.0 * 40.0 * 5.0 + std::f64::consts::PI * 25.0;
    assert!((area(&outlines) - wanted).abs() < 0.01, "{}", area(&outlines));
}

#[test]
fn winding_does_not_matter() {
    let points = rectangle(DVec2::ZERO, dvec2(40.0, 30.0));
    let there = around(&points, &QUAD, 7.0);
    let back = around(&points, &[[0, 2, 1], [0, 2, 3]], 7.0);
    assert_eq!(there, back);
}

#[test]
fn a_hole_wider_than_twice_the_distance_keeps_an_outline() {
    // A frame of four rectangles about a hole of 40 by 40.
    let mut points = Vec::new();
    for (low, high) in [
        ((0.0, 0.0), (60.0, 10.0)),
        ((0.0, 50.0), (60.0, 60.0)),
        ((0.0, 10.0), (10.0, 50.0)),
        ((50.0, 10.0), (60.0, 50.0)),
    ] {
        points.extend(rectangle(low.into(), high.into()));
    }
    let outlines = is_right(&points, &quads(4), 15.0);
    assert_eq!(outlines.len(), 2);
    let outlines = is_right(&points, &quads(4), 25.0);
    assert_eq!(outlines.len(), 1);
}

#[test]
fn parts_far_apart_have_outlines_of_their_own_and_near_ones_share_one() {
    let mut points = rectangle(DVec2::ZERO, dvec2(20.0, 20.0)).to_vec();
    points.extend(rectangle(dvec2(50.0, 5.0), dvec2(70.0, 35.0)));
    assert_eq!(is_right(&points, &quads(2), 10.0).len(), 2);
    assert_eq!(is_right(&points, &quads(2), 20.0).len(), 1);
}

#[test]
fn what_is_seen_edge_on_is_a_band() {
    let points = [DVec2::ZERO, dvec2(30.0, 0.0), dvec2(60.0, 0.0), dvec2(20.0, 0.0)];
    let outlines = is_right(&points, &QUAD, 8.0);
    assert_eq!(outlines.len(), 1);
    let wanted = 60.0 * 16.0 + std::f64::consts::PI * 64.0;
    assert!((area(&outlines) - wanted).abs() < 0.05);
}

#[test]
fn a_single_point_is_a_circle() {
    let points = [dvec2(3.0, 4.0); 3];
    let outlines = is_right(&points, &[[0, 1, 2]], 8.0);
    assert_eq!(outlines.len(), 1);
}

#[test]
fn a_round_heap_of_many_short_edges_has_one_outline() {
    // A disc of 360 triangles with a notch.
    let rim = |k: u32| DVec2::from_angle(f64::from(k).to_radians()) * 100.0;
    let mut points = vec![DVec2::ZERO];
    points.extend((0..360).map(rim));
    let triangles: Vec<[u32; 3]> =
        (0..360).filter(|k| *k > 20).map(|k| [0, k + 1, (k + 1) % 360 + 1]).collect();
    for distance in [0.5, 6.0, 60.0, 150.0] {
        assert_eq!(is_right(&points, &triangles, distance).len(), 1, "{distance}");
    }
}

#[test]
fn scattered_triangles_are_right_at_every_distance() {
    // A generator of the usual kind; only that it scatters matters.
    let mut state = 12345_u64;
    let mut number = || {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / f64::from(u32::MAX) * 2.0
    };
    for _ in 0..30 {
        let count = 3 + (number() * 14.0) as u32;
        let points: Vec<DVec2> =
            (0..3 * count).map(|_| dvec2(number() * 100.0, number() * 80.0)).collect();
        let triangles: Vec<[u32; 3]> = (0..count).map(|k| [3 * k, 3 * k + 1, 3 * k + 2]).collect();
        is_right(&points, &triangles, 1.0 + number() * 20.0);
    }
}

// Corners on a grid lie in line and on each other.
#[test]
fn triangles_on_a_grid_are_right() {
    let mut state = 99_u64;
    let mut number = |most: u64| {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((state >> 33) % most) as f64
    };
    for _ in 0..40 {
        let count = 2 + number(10) as u32;
        let points: Vec<DVec2> =
            (0..3 * count).map(|_| dvec2(number(7) * 10.0, number(6) * 10.0)).collect();
        let triangles: Vec<[u32; 3]> = (0..count).map(|k| [3 * k, 3 * k + 1, 3 * k + 2]).collect();
        for distance in [5.0, 7.5, 10.0] {
            is_right(&points, &triangles, distance);
        }
    }
}

#[test]
fn nothing_is_around_nothing() {
    assert!(around(&[], &[], 5.0).is_empty());
    assert!(around(&[DVec2::ZERO], &[[0, 1, 2]], 5.0).is_empty());
    let points = rectangle(DVec2::ZERO, DVec2::ONE);
    assert!(around(&points, &QUAD, 0.0).is_empty());
    assert!(around(&[DVec2::NAN, DVec2::ZERO, DVec2::X], &[[0, 1, 2]], 1.0).is_empty());
}
