//! A synthetic photo of known geometry: a grid of dots seen through a pinhole camera at a slant,
//! stored sideways with an EXIF orientation. Straightened by four dots picked to whole pixels, the
//! distances between the other dots are right within 0.5 %.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use glam::{DMat3, DVec2, DVec3, dvec2, dvec3};
use hosewright::app::background::picking::{scaled, straightened};
use hosewright::model::{Background, Content, Extra, Plane};
use image::{DynamicImage, ImageDecoder as _, ImageReader, RgbImage};

/// The grid: dots every 50 mm on a board of 1000 by 600.
const PITCH: f64 = 50.0;
const DOTS: [i32; 2] = [21, 13];

struct Camera {
    place: DVec3,
    /// Columns: right, down, ahead.
    axes: DMat3,
    /// Focal length, pixels.
    focal: f64,
}

impl Camera {
    fn looking_at(place: DVec3, target: DVec3, focal: f64) -> Self {
        let ahead = (target - place).normalize();
        let right = ahead.cross(DVec3::Z).normalize();
        Self { place, axes: DMat3::from_cols(right, ahead.cross(right), ahead), focal }
    }

    /// Where a point of the board is in the upright photo.
    fn sees(&self, on_board: DVec2) -> DVec2 {
        let p = self.axes.transpose() * (on_board.extend(0.0) - self.place);
        dvec2(p.x, p.y) / p.z * self.focal + SIZE / 2.0
    }
}

const SIZE: DVec2 = dvec2(2400.0, 3200.0);

fn dot(column: i32, row: i32) -> DVec2 {
    dvec2(f64::from(column), f64::from(row)) * PITCH
}

fn all_dots() -> impl Iterator<Item = DVec2> {
    (0..DOTS[0]).flat_map(|c| (0..DOTS[1]).map(move |r| dot(c, r)))
}

/// The photo as its file holds it: dark dots, lying on its side.
fn render(camera: &Camera) -> RgbImage {
    let mut upright = RgbImage::from_pixel(SIZE.x as u32, SIZE.y as u32, image::Rgb([235; 3]));
    for centre in all_dots().map(|p| camera.sees(p)) {
        const RADIUS: i32 = 7;
        for (dx, dy) in (-RADIUS..=RADIUS).flat_map(|x| (-RADIUS..=RADIUS).map(move |y| (x, y))) {
            let pixel = (centre + dvec2(f64::from(dx), f64::from(dy))).floor();
            // The middle of a pixel is half a pixel from its corner.
            let off = (pixel + 0.5).distance(centre);
            let dark = (5.0 - off).clamp(0.0, 1.0);
            if dark > 0.0 {
                let value = (235.0 - 200.0 * dark) as u8;
                upright.put_pixel(pixel.x as u32, pixel.y as u32, image::Rgb([value; 3]));
            }
        }
    }
    // Orientation 6 is shown turned clockwise: stored, it is turned the other way.
    image::imageops::rotate270(&upright)
}

/// A JPEG with an EXIF orientation (EXIF 2.32, tag 0x0112).
fn jpeg(image: RgbImage, orientation: u8) -> Vec<u8> {
    let mut plain = std::io::Cursor::new(Vec::new());
    DynamicImage::from(image).write_to(&mut plain, image::ImageFormat::Jpeg).unwrap();
    let mut exif = b"Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0".to_vec();
    exif.extend([orientation, 0, 0, 0, 0, 0, 0, 0]);
    let length = (exif.len() as u16 + 2).to_be_bytes();
    let (start, rest) = plain.get_ref().split_at(2);
    [start, &[0xff, 0xe1], &length, &exif, rest].concat()
}

fn read_back(bytes: &[u8]) -> image::GrayImage {
    let reader = ImageReader::new(std::io::Cursor::new(bytes)).with_guessed_format().unwrap();
    let mut decoder = reader.into_decoder().unwrap();
    let orientation = decoder.orientation().unwrap();
    let mut image = DynamicImage::from_decoder(decoder).unwrap();
    image.apply_orientation(orientation);
    image.into_luma8()
}

/// The middle of the dot near a place of the photo.
fn found_near(photo: &image::GrayImage, near: DVec2) -> DVec2 {
    let mut sum = DVec3::ZERO;
    for (dx, dy) in (-9..=9).flat_map(|x| (-9..=9).map(move |y| (x, y))) {
        let (x, y) = (near.x as i32 + dx, near.y as i32 + dy);
        let dark = 235.0 - f64::from(photo.get_pixel(x as u32, y as u32).0[0]);
        if dark > 60.0 {
            sum += dvec3(f64::from(x) + 0.5, f64::from(y) + 0.5, 1.0) * dvec3(dark, dark, dark);
        }
    }
    dvec2(sum.x, sum.y) / sum.z
}

fn laid_anyhow(size_px: DVec2) -> Background {
    Background {
        id: "photo".into(),
        name: String::new(),
        plane: Plane::Plan,
        file: "photo.jpg".into(),
        opacity: 1.0,
        locked: false,
        hidden: false,
        origin: dvec2(-310.0, 205.0),
        rotation_deg: 0.0,
        content: Content::Photo { size_px, mm_per_pixel: 0.137 },
        extra: Extra::new(),
    }
}

/// The worst error of a distance between dots, as a share of it.
fn worst_error(background: &Background, seen: impl Fn(DVec2) -> DVec2) -> f64 {
    let map = background.map().unwrap();
    let flat: Vec<(DVec2, DVec2)> =
        all_dots().map(|p| (p, map.apply(seen(p)).expect("in sight"))).collect();
    let mut worst: f64 = 0.0;
    for (i, (a, p)) in flat.iter().enumerate() {
        for (b, q) in &flat[i + 1..] {
            // A hand's breadth at least: what a builder measures.
            let real = a.distance(*b);
            if real >= 100.0 {
                worst = worst.max((p.distance(*q) / real - 1.0).abs());
            }
        }
    }
    worst
}

#[test]
fn distances_are_right_within_half_a_per_cent() {
    let middle = dvec3(500.0, 300.0, 0.0);
    for place in [dvec3(380.0, -560.0, 1250.0), dvec3(1250.0, 60.0, 1300.0)] {
        let camera = Camera::looking_at(place, middle, 2300.0);
        let bytes = jpeg(render(&camera), 6);
        let photo = read_back(&bytes);
        assert_eq!((photo.width(), photo.height()), (SIZE.x as u32, SIZE.y as u32), "upright");
        let seen = |p: DVec2| found_near(&photo, camera.sees(p));
        for p in all_dots() {
            assert!(seen(p).distance(camera.sees(p)) < 0.4, "the dots are where they should be");
        }

        let laid = laid_anyhow(SIZE);
        let as_laid = laid.map().unwrap();
        let click = |column, row| as_laid.apply(seen(dot(column, row)).round()).unwrap();
        // A rectangle of 600 by 350 within the board.
        let corners = [click(4, 3), click(16, 3), click(16, 10), click(4, 10)];
        let straight = straightened(laid.clone(), corners, dvec2(600.0, 350.0)).unwrap();
        let worst = worst_error(&straight, seen);
        assert!(worst < 0.005, "{:.3} %", worst * 100.0);
        assert!(worst > 1e-6, "whole pixels are not exact");

        // Without straightening, two points do not make a slanted photo true.
        let ends = [click(4, 3), click(16, 3)];
        let only_scaled = scaled(laid, ends, 600.0).unwrap();
        assert!(worst_error(&only_scaled, seen) > 0.05);
    }
}
