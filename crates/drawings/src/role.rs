//! What a colour is for; a theme says which colour that is.

/// What a line, a surface or a text is, as far as colour goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// The ground everything is drawn on.
    Paper,
    /// A surface set off a little from the ground.
    Tint,
    /// Lines and text.
    Ink,
    /// Secondary text and lines.
    Muted,
    /// Grids and rules.
    Hairline,
    /// The curve or value in hand.
    Accent,
    /// A second curve.
    Second,
    /// A third curve.
    Third,
    /// Something in order.
    Good,
    /// Something doubtful.
    Caution,
    /// Something wrong.
    Stop,
    /// A wooden face turned to the light.
    Wood,
    /// A wooden face in half light.
    WoodShade,
    /// A wooden face turned away, and cut edges.
    WoodDark,
    /// Metal and cones.
    Metal,
    /// Magnets and rubber.
    MetalDark,
    /// Batteries.
    Cell,
    /// Circuit boards.
    Board,
    /// A black wire.
    WireBlack,
    /// A brown wire.
    WireBrown,
    /// A red wire.
    WireRed,
    /// An orange wire.
    WireOrange,
    /// A yellow wire.
    WireYellow,
    /// A green wire.
    WireGreen,
    /// A blue wire.
    WireBlue,
    /// A violet wire.
    WireViolet,
    /// A grey wire.
    WireGrey,
    /// A white wire.
    WireWhite,
    /// A pink wire.
    WirePink,
    /// A turquoise wire.
    WireTurquoise,
}

impl Role {
    /// Every role.
    pub const ALL: [Role; 30] = [
        Role::Paper,
        Role::Tint,
        Role::Ink,
        Role::Muted,
        Role::Hairline,
        Role::Accent,
        Role::Second,
        Role::Third,
        Role::Good,
        Role::Caution,
        Role::Stop,
        Role::Wood,
        Role::WoodShade,
        Role::WoodDark,
        Role::Metal,
        Role::MetalDark,
        Role::Cell,
        Role::Board,
        Role::WireBlack,
        Role::WireBrown,
        Role::WireRed,
        Role::WireOrange,
        Role::WireYellow,
        Role::WireGreen,
        Role::WireBlue,
        Role::WireViolet,
        Role::WireGrey,
        Role::WireWhite,
        Role::WirePink,
        Role::WireTurquoise,
    ];

    /// Its name in a style sheet: `ink`, `wood-shade`.
    #[must_use]
    pub fn name(self) -> String {
        let mut out = String::new();
        for letter in format!("{self:?}").chars() {
            if letter.is_ascii_uppercase() && !out.is_empty() {
                out.push('-');
            }
            out.push(letter.to_ascii_lowercase());
        }
        out
    }
}

/// A colour as red, green and blue, sRGB.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rgb(pub u8, pub u8, pub u8);

/// A set of colours, one for every role.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Dark lines on white paper.
    #[default]
    Paper,
    /// Light lines on dark blue.
    Blueprint,
}

impl Theme {
    /// The colour of a role.
    #[must_use]
    pub const fn colour(self, role: Role) -> Rgb {
        match self {
            Self::Paper => on_paper(role),
            Self::Blueprint => on_blueprint(role),
        }
    }
}

const fn on_paper(role: Role) -> Rgb {
    match role {
        Role::Paper => Rgb(255, 255, 255),
        Role::Tint => Rgb(244, 245, 243),
        Role::Ink => Rgb(24, 38, 52),
        Role::Muted => Rgb(86, 100, 112),
        Role::Hairline => Rgb(205, 211, 215),
        Role::Accent => Rgb(31, 99, 153),
        Role::Second => Rgb(166, 90, 24),
        Role::Third => Rgb(104, 72, 142),
        Role::Good => Rgb(22, 120, 98),
        Role::Caution => Rgb(168, 108, 4),
        Role::Stop => Rgb(190, 44, 40),
        Role::Wood => Rgb(243, 233, 214),
        Role::WoodShade => Rgb(231, 215, 187),
        Role::WoodDark => Rgb(212, 189, 150),
        Role::Metal => Rgb(188, 197, 204),
        Role::MetalDark => Rgb(92, 104, 116),
        Role::Cell => Rgb(176, 199, 216),
        Role::Board => Rgb(150, 201, 172),
        Role::WireBlack => Rgb(24, 38, 52),
        Role::WireBrown => Rgb(122, 74, 34),
        Role::WireRed => Rgb(198, 36, 36),
        Role::WireOrange => Rgb(206, 104, 0),
        Role::WireYellow => Rgb(158, 132, 0),
        Role::WireGreen => Rgb(24, 128, 62),
        Role::WireBlue => Rgb(26, 84, 176),
        Role::WireViolet => Rgb(112, 58, 158),
        Role::WireGrey => Rgb(112, 120, 126),
        Role::WireWhite => Rgb(134, 152, 170),
        Role::WirePink => Rgb(206, 72, 142),
        Role::WireTurquoise => Rgb(0, 134, 140),
    }
}

const fn on_blueprint(role: Role) -> Rgb {
    match role {
        Role::Paper => Rgb(15, 36, 60),
        Role::Tint => Rgb(21, 45, 72),
        Role::Ink => Rgb(233, 241, 248),
        Role::Muted => Rgb(156, 178, 199),
        Role::Hairline => Rgb(47, 74, 104),
        Role::Accent => Rgb(122, 194, 246),
        Role::Second => Rgb(243, 179, 112),
        Role::Third => Rgb(203, 175, 243),
        Role::Good => Rgb(108, 210, 176),
        Role::Caution => Rgb(240, 191, 92),
        Role::Stop => Rgb(255, 132, 122),
        Role::Wood => Rgb(38, 70, 104),
        Role::WoodShade => Rgb(30, 60, 93),
        Role::WoodDark => Rgb(24, 51, 81),
        Role::Metal => Rgb(88, 118, 148),
        Role::MetalDark => Rgb(132, 158, 184),
        Role::Cell => Rgb(72, 118, 160),
        Role::Board => Rgb(64, 134, 118),
        Role::WireBlack => Rgb(148, 166, 184),
        Role::WireBrown => Rgb(206, 150, 104),
        Role::WireRed => Rgb(255, 120, 112),
        Role::WireOrange => Rgb(250, 166, 74),
        Role::WireYellow => Rgb(240, 220, 96),
        Role::WireGreen => Rgb(110, 212, 136),
        Role::WireBlue => Rgb(120, 176, 255),
        Role::WireViolet => Rgb(200, 160, 246),
        Role::WireGrey => Rgb(176, 188, 198),
        Role::WireWhite => Rgb(255, 255, 255),
        Role::WirePink => Rgb(255, 156, 206),
        Role::WireTurquoise => Rgb(104, 220, 222),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast ratio of two colours, WCAG 2.1 (from memory).
    fn contrast(a: Rgb, b: Rgb) -> f64 {
        let channel = |v: u8| {
            let v = f64::from(v) / 255.0;
            if v <= 0.03928 {
                v / 12.92
            } else {
                libm::pow((v + 0.055) / 1.055, 2.4)
            }
        };
        let light = |c: Rgb| 0.2126 * channel(c.0) + 0.7152 * channel(c.1) + 0.0722 * channel(c.2);
        let (x, y) = (light(a) + 0.05, light(b) + 0.05);
        x.max(y) / x.min(y)
    }

    #[test]
    fn every_role_that_letters_text_is_readable_in_both_themes() {
        for theme in [Theme::Paper, Theme::Blueprint] {
            let ground = theme.colour(Role::Paper);
            for role in [
                Role::Ink,
                Role::Muted,
                Role::Accent,
                Role::Second,
                Role::Third,
                Role::Good,
                Role::Stop,
            ] {
                let ratio = contrast(theme.colour(role), ground);
                assert!(ratio >= 4.5, "{role:?} in {theme:?}: {ratio:.2}");
            }
            for role in Role::ALL
                .into_iter()
                .filter(|r| format!("{r:?}").starts_with("Wire"))
            {
                // A line of a drawing: WCAG 2.1 asks 3 of graphics, from memory.
                let ratio = contrast(theme.colour(role), ground);
                assert!(ratio >= 2.9, "{role:?} in {theme:?}: {ratio:.2}");
            }
            let caution = contrast(theme.colour(Role::Caution), ground);
            assert!(caution >= 3.9, "caution in {theme:?}: {caution:.2}");
        }
    }
}
