//! Points and directions in space, in m.

/// A point or a direction: x to the right, y backwards, z upwards.
pub type Vector = [f64; 3];

/// a + b.
#[must_use]
pub fn add(a: Vector, b: Vector) -> Vector {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

/// a − b.
#[must_use]
pub fn sub(a: Vector, b: Vector) -> Vector {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

/// a · k.
#[must_use]
pub fn scale(a: Vector, k: f64) -> Vector {
    a.map(|c| c * k)
}

/// Scalar product.
#[must_use]
pub fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Vector product.
#[must_use]
pub fn cross(a: Vector, b: Vector) -> Vector {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

/// Length.
#[must_use]
pub fn length(a: Vector) -> f64 {
    dot(a, a).sqrt()
}

/// The direction of a vector; the vector itself where it has none.
#[must_use]
pub fn unit(a: Vector) -> Vector {
    let long = length(a);
    if long > 0.0 { scale(a, 1.0 / long) } else { a }
}
