//! Fillets against `tests/reference/fillet.json`: polylines in plane and space, lengths to 30
//! digits (mpmath 1.4.1), checked there by dense sampling and by offset curves (shapely 2.2.0).
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use glam::DVec3;
use hosewright::geom::{CentreLine, Piece, Polyline, fit_fillets};
use serde_json::Value;

fn number(value: &Value) -> f64 {
    value.as_str().map_or_else(|| value.as_f64().unwrap(), |text| text.parse().unwrap())
}

fn point(value: &Value) -> DVec3 {
    DVec3::new(number(&value[0]), number(&value[1]), number(&value[2]))
}

fn list<T>(value: &Value, read: impl Fn(&Value) -> T) -> Vec<T> {
    value.as_array().unwrap().iter().map(read).collect()
}

fn cases() -> Vec<Value> {
    let file: Value = serde_json::from_str(include_str!("reference/fillet.json")).unwrap();
    file["cases"].as_array().unwrap().clone()
}

#[test]
fn lengths_arcs_and_room_agree_with_thirty_digits() {
    let cases = cases();
    assert!(cases.len() >= 20);
    for case in &cases {
        let id = case["id"].as_str().unwrap();
        let points = list(&case["input"]["points"], point);
        let mut wanted = vec![0.0];
        wanted.extend(list(&case["input"]["radii"], number));
        wanted.resize(points.len(), *wanted.last().unwrap());
        let held = vec![0.0; points.len() - 1];
        let line = Polyline::new(points, |_| None);
        let fillets = fit_fillets(&line, &wanted, &held);
        let expected = &case["result"];
        let feasible = expected["feasible"].as_bool().unwrap();
        let shrunk = fillets.iter().any(|f| f.bends() && f.radius < f.wanted * (1.0 - 1e-12));
        assert_eq!(feasible, !shrunk, "{id}: fits as wanted");
        let mut middles = Vec::new();
        let curve = CentreLine::rounded(&line, &fillets, &mut middles);
        assert!(curve.length().is_finite(), "{id}");
        if !feasible {
            continue;
        }
        let length = number(&expected["length"]);
        assert!((curve.length() - length).abs() <= 1e-9 * (1.0 + length * 1e-6), "{id}: length");
        let arcs: Vec<_> = curve.pieces().filter(|(_, p)| matches!(p, Piece::Arc { .. })).collect();
        let turning: Vec<f64> = list(&expected["turning_angles_rad"], number)
            .into_iter()
            .filter(|t| *t > 0.0)
            .collect();
        assert_eq!(arcs.len(), turning.len(), "{id}: arcs");
        for (k, angle) in turning.iter().enumerate() {
            let (start, piece) = arcs[k];
            let Piece::Arc { angle: got, .. } = piece else { unreachable!() };
            assert!((got - angle).abs() < 1e-12, "{id}: turning angle");
            if let Some(arc) = expected["arcs"].get(k) {
                let near = |a: DVec3, b: DVec3| a.distance(b) < 1e-7;
                assert!(near(piece.point_at(0.0), point(&arc["start"])), "{id}: start of arc");
                assert!(near(piece.point_at(piece.length()), point(&arc["end"])), "{id}: end");
                let middle = f64::midpoint(number(&arc["s_start"]), number(&arc["s_end"]));
                assert!(near(curve.point_at(middle), point(&arc["mid"])), "{id}: middle");
                assert!((start - number(&arc["s_start"])).abs() < 1e-7, "{id}: s of arc");
            }
        }
        let bending: Vec<f64> =
            (0..fillets.len()).filter(|i| fillets[*i].bends()).map(|i| middles[i]).collect();
        assert!(bending.windows(2).all(|pair| pair[0] < pair[1]), "{id}: middles in order");
    }
}
