//! Photos from their files to pictures of halving sizes, so that a large photo seen small does not
//! flicker. Runs off the window's thread.

use std::fs::File;
use std::io::BufReader;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

use eframe::egui::{Color32, ColorImage};
use image::{DynamicImage, ImageDecoder as _, ImageError, ImageReader, Limits};

/// A photo, upright.
pub(super) struct Photo {
    /// Width and height in the file, after turning, pixels.
    pub(super) size_px: [u32; 2],
    /// The largest first, each half the one before.
    pub(super) levels: Vec<ColorImage>,
}

/// No side is decoded beyond this, pixels.
const MOST_SIDE: u32 = 40_000;
/// Nor more than this in memory at a time, bytes: 170 megapixels.
const MOST_BYTES: u64 = 512 << 20;
/// The smallest picture kept, pixels: below this nothing can be told apart.
const LEAST_SIDE: usize = 64;

/// Reads a photo, turned by its EXIF orientation, no side larger than `most_side`.
pub(super) fn photo(path: &Path, most_side: u32) -> Result<Photo, String> {
    // A decoder's fault is the photo's, not the window's.
    let read = catch_unwind(AssertUnwindSafe(|| upright(path)));
    let image = read.unwrap_or_else(|_| Err("it is damaged".to_owned()))?;
    let size_px = [image.width(), image.height()];
    let most = most_side.max(1);
    let image = if size_px[0].max(size_px[1]) > most { image.thumbnail(most, most) } else { image };
    Ok(Photo { size_px, levels: halved(coloured(image)) })
}

fn upright(path: &Path) -> Result<DynamicImage, String> {
    let file = File::open(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        std::io::ErrorKind::PermissionDenied => "you may not read this file".to_owned(),
        _ => error.to_string(),
    })?;
    let mut reader =
        ImageReader::new(BufReader::new(file)).with_guessed_format().map_err(|e| e.to_string())?;
    let mut limits = Limits::default();
    limits.max_image_width = Some(MOST_SIDE);
    limits.max_image_height = Some(MOST_SIDE);
    limits.max_alloc = Some(MOST_BYTES);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(told)?;
    if decoder.total_bytes() > MOST_BYTES {
        return Err(TOO_LARGE.to_owned());
    }
    // A photo whose EXIF cannot be read is shown as it is stored.
    let orientation = decoder.orientation().unwrap_or(image::metadata::Orientation::NoTransforms);
    let mut image = DynamicImage::from_decoder(decoder).map_err(told)?;
    image.apply_orientation(orientation);
    Ok(image)
}

const TOO_LARGE: &str = "it is too large: at most 40 000 pixels a side and 170 megapixels are read";

#[allow(clippy::needless_pass_by_value, reason = "as map_err wants it")]
fn told(error: ImageError) -> String {
    match error {
        ImageError::Unsupported(_) => {
            "not a JPEG or PNG picture; save it as one of these".to_owned()
        }
        ImageError::Limits(_) => TOO_LARGE.to_owned(),
        ImageError::IoError(error) if error.kind() != std::io::ErrorKind::UnexpectedEof => {
            error.to_string()
        }
        _ => "it is damaged".to_owned(),
    }
}

fn coloured(image: DynamicImage) -> ColorImage {
    let size = [image.width() as usize, image.height() as usize];
    if image.color().has_alpha() {
        ColorImage::from_rgba_unmultiplied(size, &image.into_rgba8())
    } else {
        ColorImage::from_rgb(size, &image.into_rgb8())
    }
}

fn halved(first: ColorImage) -> Vec<ColorImage> {
    let mut levels = vec![first];
    while let Some(last) = levels.last()
        && last.size[0].max(last.size[1]) >= 2 * LEAST_SIDE
    {
        let next = half(last);
        levels.push(next);
    }
    levels
}

/// Each pixel the mean of four; a last odd row or column is taken twice.
fn half(of: &ColorImage) -> ColorImage {
    let [width, height] = of.size;
    let size = of.size.map(|side| side.div_ceil(2));
    let mut pixels = Vec::with_capacity(size[0] * size[1]);
    for y in 0..size[1] {
        let rows = [2 * y, (2 * y + 1).min(height - 1)].map(|y| &of.pixels[y * width..][..width]);
        for x in 0..size[0] {
            let columns = [2 * x, (2 * x + 1).min(width - 1)];
            pixels.push(mean([
                rows[0][columns[0]],
                rows[0][columns[1]],
                rows[1][columns[0]],
                rows[1][columns[1]],
            ]));
        }
    }
    ColorImage::new(size, pixels)
}

fn mean(four: [Color32; 4]) -> Color32 {
    let channel = |k: usize| {
        let sum: u16 = four.iter().map(|colour| u16::from(colour.to_array()[k])).sum();
        ((sum + 2) / 4) as u8
    };
    let mut mean = Color32::TRANSPARENT;
    for k in 0..4 {
        mean[k] = channel(k);
    }
    mean
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn levels_halve_down_to_the_least_and_keep_the_mean() {
        let grey = |i: usize| Color32::from_gray((i % 2 * 200) as u8);
        let first = ColorImage::new([301, 200], (0..301 * 200).map(grey).collect());
        let levels = halved(first);
        let sizes: Vec<[usize; 2]> = levels.iter().map(|level| level.size).collect();
        assert_eq!(sizes, [[301, 200], [151, 100], [76, 50]]);
        let middle = levels[1].pixels[50 * 151 + 70];
        assert_eq!(middle, Color32::from_gray(100));
    }

    #[test]
    fn what_is_no_photo_says_why() {
        let folder = tempfile::tempdir().unwrap();
        let write = |name: &str, bytes: &[u8]| {
            let path = folder.path().join(name);
            std::fs::write(&path, bytes).unwrap();
            photo(&path, 1000).err().unwrap()
        };
        let gone = photo(&folder.path().join("gone.jpg"), 1000).err().unwrap();
        assert_eq!(gone, "there is no such file");
        assert!(write("words.jpg", b"words").starts_with("not a JPEG or PNG"));
        assert_eq!(write("cut.png", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"), "it is damaged");
        // A header that promises 2 000 000 000 × 2 000 000 000 pixels.
        let mut bomb = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR".to_vec();
        bomb.extend([0x77, 0x35, 0x94, 0, 0x77, 0x35, 0x94, 0, 8, 2, 0, 0, 0]);
        bomb.extend(0x0u32.to_be_bytes());
        let told = write("bomb.png", &bomb);
        assert!(told == "it is damaged" || told == TOO_LARGE, "{told}");
    }

    /// A JPEG with an EXIF orientation (EXIF 2.32, tag 0x0112).
    fn jpeg(image: image::RgbImage, orientation: u8) -> Vec<u8> {
        let mut plain = std::io::Cursor::new(Vec::new());
        DynamicImage::from(image).write_to(&mut plain, image::ImageFormat::Jpeg).unwrap();
        let mut exif = b"Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0".to_vec();
        exif.extend([orientation, 0, 0, 0, 0, 0, 0, 0]);
        let length = (exif.len() as u16 + 2).to_be_bytes();
        let (start, rest) = plain.get_ref().split_at(2);
        [start, &[0xff, 0xe1], &length, &exif, rest].concat()
    }

    #[test]
    fn a_photo_is_turned_upright_and_made_no_larger_than_allowed() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("turned.jpg");
        // Left half white. Orientation 6: to be turned clockwise, so that it comes to the top.
        let image = image::RgbImage::from_fn(400, 200, |x, _| {
            image::Rgb(if x < 200 { [255; 3] } else { [0; 3] })
        });
        std::fs::write(&path, jpeg(image, 6)).unwrap();
        let photo = photo(&path, 100).unwrap();
        assert_eq!(photo.size_px, [200, 400]);
        assert_eq!(photo.levels[0].size, [50, 100]);
        let bright = |x: usize, y: usize| photo.levels[0].pixels[y * 50 + x].r() > 128;
        assert!(bright(5, 10) && bright(45, 10) && !bright(5, 90) && !bright(45, 90));
    }
}
