//! Bend tables: by hand, and by property: a wire bent by the rounded table lies along the route.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::xorshift::Xorshift;
use glam::{DQuat, DVec3};
use hosewright::engine::bend_table::{BendTable, STRAY_MM, Step, WireStart};
use hosewright::geom::{CentreLine, Piece, Polyline, fit_fillets, point_piece};
use hosewright::units::LengthUnit::{self, Inch, Mm};

/// A polyline with its corners rounded.
fn rounded(points: Vec<DVec3>, radius: f64) -> CentreLine {
    let line = Polyline::new(points, |_| None);
    let wanted = vec![radius; line.points.len()];
    let fillets = fit_fillets(&line, &wanted, &vec![0.0; line.stretches.len()]);
    CentreLine::rounded(&line, &fillets, &mut Vec::new())
}

fn table_through(points: &[[f64; 3]], radius: f64) -> BendTable {
    BendTable::new(&rounded(points.iter().copied().map(DVec3::from).collect(), radius), Mm)
}

/// Straight, turn, bend, radius of each bend, and the straight at the end.
fn figures(table: &BendTable) -> (Vec<[f64; 4]>, f64) {
    let row = |bend: &hosewright::engine::bend_table::TableBend| {
        [bend.straight_mm, bend.turn_deg, bend.bend_deg, bend.radius_mm]
    };
    (table.bends.iter().map(row).collect(), table.tail_mm)
}

const SQUARE: f64 = 90.0;

/// Issue 13, section 3, bend table: a U goes on the same way round, an S bends back.
#[test]
fn a_u_has_no_turn_and_an_s_has_half_a_turn() {
    let u = [[0.0; 3], [200.0, 0.0, 0.0], [200.0, 300.0, 0.0], [0.0, 300.0, 0.0]];
    let (rows, tail) = figures(&table_through(&u, 100.0));
    assert_eq!(rows, [[100.0, 0.0, SQUARE, 100.0], [100.0, 0.0, SQUARE, 100.0]]);
    assert_eq!(tail, 100.0);
    let s = [[0.0; 3], [200.0, 0.0, 0.0], [200.0, 300.0, 0.0], [400.0, 300.0, 0.0]];
    let (rows, _) = figures(&table_through(&s, 100.0));
    assert_eq!(rows[1], [100.0, 180.0, SQUARE, 100.0]);
}

/// Along X, then to Y, then up, then along X again. Looking along Y with Z up, X is to the right: bend 1 came
/// from the left, its inside is at 9 o'clock, that of bend 2 at 12: a quarter clockwise. The same in the mirror
/// is anticlockwise.
#[test]
fn a_right_handed_screw_turns_clockwise_all_along() {
    for (up, turn) in [(1.0, 90.0), (-1.0, -90.0)] {
        let screw = [
            [0.0; 3],
            [300.0, 0.0, 0.0],
            [300.0, 300.0, 0.0],
            [300.0, 300.0, 300.0 * up],
            [600.0, 300.0, 300.0 * up],
            [600.0, 600.0, 300.0 * up],
        ];
        let table = table_through(&screw, 100.0);
        let (rows, tail) = figures(&table);
        assert_eq!(rows[0], [200.0, 0.0, SQUARE, 100.0]);
        for row in &rows[1..] {
            assert_eq!(row, &[100.0, turn, SQUARE, 100.0]);
        }
        assert_eq!((rows.len(), tail), (4, 200.0));
        assert!(table.stray_mm < 1e-9, "whole figures stray by nothing");
        // Held on to as it is printed: from A, right-handed about the way that the wire goes.
        let start = WireStart { at: DVec3::ZERO, direction: DVec3::X, side: DVec3::Y };
        let wire = table.rebuilt(start);
        let (_, last) = wire.last().unwrap();
        let wanted = DVec3::from(screw[5]);
        assert!(last.point_at(last.length()).distance(wanted) < 1e-9);
    }
}

#[test]
fn marks_on_the_straight_wire_are_where_bends_begin_and_end() {
    let table = table_through(
        &[[0.0; 3], [200.0, 0.0, 0.0], [200.0, 300.0, 0.0], [200.0, 300.0, 300.0]],
        100.0,
    );
    let quarter = 100.0 * std::f64::consts::FRAC_PI_2;
    let wanted = [[100.0, 100.0 + quarter], [200.0 + quarter, 200.0 + 2.0 * quarter]];
    for (mark, wanted) in table.marks().iter().flatten().zip(wanted.iter().flatten()) {
        assert!((mark - wanted).abs() < 1e-9);
    }
    assert!((table.length_mm() - (400.0 + 2.0 * quarter)).abs() < 1e-9);
}

#[test]
fn a_straight_route_and_an_empty_one_have_no_bend() {
    let straight = table_through(&[[0.0; 3], [123.4, 0.0, 0.0]], 50.0);
    assert_eq!((straight.bends.len(), straight.tail_mm), (0, 123.0));
    assert!(straight.stray_mm <= STRAY_MM);
    let empty = BendTable::new(&CentreLine::default(), Mm);
    assert_eq!((empty.bends.len(), empty.tail_mm, empty.stray_mm), (0, 0.0, 0.0));
}

/// A corner without room for a radius is bent sharp; what turns by less than half a degree is straight.
#[test]
fn sharp_corners_and_hairs() {
    let sharp = table_through(&[[0.0; 3], [200.0, 0.0, 0.0], [200.0, 300.0, 0.0]], 0.0);
    assert_eq!(figures(&sharp), (vec![[200.0, 0.0, SQUARE, 0.0]], 300.0));
    let hair = table_through(&[[0.0; 3], [200.0, 0.0, 0.0], [400.0, 1.0, 0.0]], 100.0);
    assert_eq!(hair.bends.len(), 0);
    assert!(hair.stray_mm > STRAY_MM, "{}", hair.stray_mm);
}

/// A random route that a hose could take: legs of 120 to 500 mm that turn by 20 to 110 degrees.
fn route(random: &mut Xorshift) -> CentreLine {
    let mut of = |a: f64, b: f64| a + (b - a) * random.share();
    let legs = of(3.0, 9.0) as usize;
    let (mut at, mut way) = (DVec3::new(of(-1.0, 1.0), of(-1.0, 1.0), 0.4) * 900.0, DVec3::X);
    let mut points = vec![at];
    for _ in 0..legs {
        at += way * of(120.0, 500.0);
        points.push(at);
        let about = DQuat::from_axis_angle(way, of(0.0, 6.3)) * way.any_orthonormal_vector();
        way = (DQuat::from_axis_angle(about, of(20.0, 110.0).to_radians()) * way).normalize();
    }
    rounded(points, of(25.0, 80.0))
}

/// How far the wire strays, measured apart from the program's own measure: every half millimetre.
fn measured(line: &CentreLine, wire: &[(f64, Piece)]) -> f64 {
    let drawn: Vec<Piece> = line.pieces().map(|(_, piece)| piece).collect();
    let bent: Vec<Piece> = wire.iter().map(|(_, piece)| *piece).collect();
    let one_way = |from: &[Piece], to: &[Piece]| {
        let places = from.iter().flat_map(|piece| {
            let count = (piece.length() / 0.5).ceil();
            (0..=count as u32).map(move |k| piece.point_at(piece.length() * f64::from(k) / count))
        });
        let away = |p: DVec3| {
            let to = to.iter().map(|piece| piece.point_at(point_piece(p, piece)).distance(p));
            to.fold(f64::INFINITY, f64::min)
        };
        places.map(away).fold(0.0, f64::max)
    };
    one_way(&drawn, &bent).max(one_way(&bent, &drawn))
}

fn is_on_scale(value: f64, step: f64) -> bool {
    (value / step - (value / step).round()).abs() < 1e-6
}

fn all_on_scale(table: &BendTable) -> bool {
    let Step { mm, deg } = table.step;
    is_on_scale(table.tail_mm, mm)
        && table.bends.iter().all(|bend| {
            is_on_scale(bend.straight_mm, mm)
                && is_on_scale(bend.radius_mm, mm)
                && is_on_scale(bend.turn_deg, deg)
                && is_on_scale(bend.bend_deg, deg)
                && bend.straight_mm >= 0.0
                && bend.bend_deg > 0.0
                && (-180.0..=180.0).contains(&bend.turn_deg)
        })
}

/// Issue 13, section 3, bend table: of routes that a hose could take, the wire bent by the rounded table lies
/// within 0.5 mm, both ways, all along.
#[test]
fn a_wire_bent_by_the_table_lies_within_half_a_millimetre_of_the_route() {
    for (unit, coarse) in [(Mm, 1.0), (Inch, 25.4 / 16.0)] {
        within_half_a_millimetre(unit, coarse);
    }
}

fn within_half_a_millimetre(unit: LengthUnit, coarse: f64) {
    let mut random = Xorshift(20_261_130);
    let mut coarse_ones = 0;
    for round in 0..60 {
        let line = route(&mut random);
        let table = BendTable::new(&line, unit);
        let stray = measured(&line, &table.rebuilt(WireStart::of(&line)));
        assert!(stray <= STRAY_MM, "{round}: {stray}");
        assert!(
            (stray - table.stray_mm).abs() < 0.02,
            "{round}: {stray} is told as {}",
            table.stray_mm
        );
        assert!(table.coarse_stray_mm >= table.stray_mm);
        assert!(all_on_scale(&table), "{round}: {table:?}");
        coarse_ones += u32::from(table.step.mm == coarse);
    }
    assert!(coarse_ones < 60, "not every route can be bent to whole degrees");
}

/// Half a degree off over a straight of half a metre is 4.4 mm, and no rounding helps: the step gets finer, and
/// the table tells what whole degrees would do.
#[test]
fn whole_degrees_that_stray_too_far_are_told_and_not_used() {
    let at = |deg: f64| DVec3::new(deg.to_radians().cos(), deg.to_radians().sin(), 0.0);
    let line =
        rounded(vec![DVec3::ZERO, DVec3::X * 300.0, DVec3::X * 300.0 + at(40.5) * 900.0], 80.0);
    let table = BendTable::new(&line, Mm);
    assert_eq!((table.step.deg, table.bends[0].bend_deg), (0.5, 40.5));
    assert!(table.stray_mm <= STRAY_MM && table.coarse_stray_mm > 3.0, "{table:?}");
}
