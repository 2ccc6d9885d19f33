//! Triangles as a binary STL file, in millimetres.

/// A corner in m; x to the right, y backwards, z upwards.
type Corner = [f64; 3];

/// Millimetres in a metre.
const MM: f64 = 1000.0;

/// Triangles, corners in m and counter-clockwise as seen from outside, as a
/// binary STL file in mm. The same triangles give the same bytes.
#[must_use]
pub fn stl(triangles: &[[Corner; 3]]) -> Vec<u8> {
    let kept: Vec<[[f32; 3]; 3]> = triangles
        .iter()
        .map(in_mm)
        .filter(|t| !is_bare(t))
        .collect();
    let mut out = Vec::with_capacity(84 + 50 * kept.len());
    // Not "solid": that would begin a file in words.
    let mut title = [0_u8; 80];
    let words = b"Boxwright; lengths in millimetres";
    title[..words.len()].copy_from_slice(words);
    out.extend(title);
    let count = u32::try_from(kept.len()).unwrap_or(u32::MAX);
    out.extend(count.to_le_bytes());
    for triangle in kept {
        for number in normal(&triangle)
            .into_iter()
            .chain(triangle.into_iter().flatten())
        {
            out.extend(number.to_le_bytes());
        }
        out.extend([0, 0]);
    }
    out
}

/// Single precision holds a box of metres to a tenth of a micrometre.
#[allow(clippy::cast_possible_truncation)]
fn single(metres: f64) -> f32 {
    // Adding zero makes a negative zero a plain one.
    (metres * MM) as f32 + 0.0
}

fn in_mm(triangle: &[Corner; 3]) -> [[f32; 3]; 3] {
    triangle.map(|corner| corner.map(single))
}

/// Whether rounding has left no triangle: two corners are one.
fn is_bare([a, b, c]: &[[f32; 3]; 3]) -> bool {
    a == b || b == c || c == a
}

/// Outwards, of length 1; zero where a triangle has no area, which readers
/// take as "not stated".
fn normal(triangle: &[[f32; 3]; 3]) -> [f32; 3] {
    let [a, b, c] = triangle.map(|corner| corner.map(f64::from));
    let out = wood::vector::cross(wood::vector::sub(b, a), wood::vector::sub(c, a));
    #[allow(clippy::cast_possible_truncation)]
    wood::vector::unit(out).map(|n| n as f32 + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_triangle_takes_fifty_bytes() {
        let triangle = [[0.0; 3], [0.01, 0.0, 0.0], [0.0, 0.02, 0.0]];
        let file = stl(&[triangle, [[0.1; 3], [0.1; 3], [0.2; 3]]]);
        assert_eq!(file.len(), 84 + 50, "the bare one is left out");
        assert_eq!(file[80..84], 1_u32.to_le_bytes());
        let number = |at: usize| f32::from_le_bytes(file[at..at + 4].try_into().unwrap());
        assert_eq!([number(84), number(88), number(92)], [0.0, 0.0, 1.0]);
        assert_eq!(number(84 + 24), 10.0, "millimetres");
        assert!(!file.starts_with(b"solid"));
    }
}
