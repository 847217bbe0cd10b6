//! Pieces of centre line against `tests/reference/clearance.json`: branch-and-bound with numpy and
//! scipy 1.17.1, certified to 1e-7 mm, or by hand where the minimum is flat.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use std::sync::Arc;

use glam::{DMat3, DVec3};
use hosewright::geom::{Chain, Form, MeshField, Near, Piece, Placed, Rigid};
use serde_json::Value;

const ACCURACY_MM: f64 = 1e-6;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn point(value: &Value) -> DVec3 {
    DVec3::new(number(&value[0]), number(&value[1]), number(&value[2]))
}

fn line(a: DVec3, b: DVec3) -> Piece {
    Piece::Line { start: a, direction: (b - a).normalize(), length: a.distance(b) }
}

fn piece(value: &Value) -> Piece {
    if value["type"] == "line" {
        return line(point(&value["a"]), point(&value["b"]));
    }
    let (out, radius) = (point(&value["e1"]), number(&value["radius"]));
    Piece::Arc {
        start: point(&value["centre"]) + radius * out,
        direction: point(&value["e2"]),
        inward: -out,
        radius,
        angle: number(&value["angle"]),
    }
}

fn chain(value: &Value) -> Chain {
    let mut at = 0.0;
    Chain::new(value.as_array().unwrap().iter().map(|value| {
        let piece = piece(value);
        let start = at;
        at += piece.length();
        (start, piece)
    }))
}

fn obstacle(value: &Value) -> Option<Placed> {
    let radius = || number(&value["radius"]);
    let (form, position) = match value["type"].as_str().unwrap() {
        "box" => {
            let rows = [0, 1, 2].map(|row| point(&value["axes_columns"][row]));
            let turn = DMat3::from_cols(rows[0], rows[1], rows[2]).transpose();
            let half = point(&value["half"]);
            (Form::Box { half }, Rigid { turn, shift: point(&value["centre"]) })
        }
        "sphere" => (Form::Ball { radius: radius() }, Rigid::shifted(point(&value["centre"]))),
        "cylinder" => {
            let (a, b) = (point(&value["a"]), point(&value["b"]));
            let position = Rigid::from_z((b - a).normalize(), 0.5 * (a + b));
            (Form::Cylinder { half: a.distance(b) / 2.0, radius: radius() }, position)
        }
        "mesh" => {
            let vertices: Vec<_> =
                value["vertices"].as_array().unwrap().iter().map(point).collect();
            let faces = value["faces"].as_array().unwrap().iter();
            let faces: Vec<_> =
                faces.map(|face| [0, 1, 2].map(|k| face[k].as_u64().unwrap() as u32)).collect();
            let mesh = MeshField::new(&vertices, &faces);
            assert!(mesh.is_closed());
            (Form::Mesh(Arc::new(mesh)), Rigid::IDENTITY)
        }
        _ => return None,
    };
    Some(Placed::new(form, position))
}

/// The signed distance, and the places.
fn nearest(hose: &Chain, value: &Value) -> Near {
    if let Some(obstacle) = obstacle(value) {
        return hose.nearest(&obstacle, f64::INFINITY).unwrap();
    }
    let other = match value["type"].as_str().unwrap() {
        "hose" => chain(&value["pieces"]),
        "capsule" => Chain::new([(0.0, line(point(&value["a"]), point(&value["b"])))]),
        unknown => panic!("{unknown}"),
    };
    let near = hose.nearest_chain(&other, f64::INFINITY).unwrap();
    let turned = other.nearest_chain(hose, f64::INFINITY).unwrap();
    assert!((near.distance - turned.distance).abs() < ACCURACY_MM, "the same the other way round");
    Near {
        // The other's radius is already taken off in the file.
        distance: near.distance - number(&value["radius"]),
        along: near.along,
        on_piece: near.point,
        on_other: near.point_other,
    }
}

#[test]
fn every_case() {
    let file: Value = serde_json::from_str(include_str!("reference/clearance.json")).unwrap();
    let cases = file["cases"].as_array().unwrap();
    for case in cases {
        let id = case["id"].as_str().unwrap();
        let near = nearest(&chain(&case["hose"]["pieces"]), &case["solid"]);
        let expected = number(&case["signed_centreline_distance"]);
        assert!(
            (near.distance - expected).abs() < ACCURACY_MM,
            "{id}: {} {expected}",
            near.distance
        );
        // A flat minimum may be met anywhere along it.
        if !case["certified_within"].is_null() {
            let along = number(&case["s_at_min"]);
            assert!((near.along - along).abs() < 1e-2, "{id}: at {} not {along}", near.along);
            let place = point(&case["point_on_centreline"]);
            assert!(near.on_piece.distance(place) < 1e-2, "{id}: {} not {place}", near.on_piece);
        }
    }
    assert_eq!(cases.len(), 24);
}
