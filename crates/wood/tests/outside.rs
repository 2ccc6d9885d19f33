//! Walls against a general mesh library that makes them as a joiner would
//! (reference/box_solids.csv, key `manifold3d`).

use boxwright_wood::{
    Block, Body, Edge, EdgeForm, Hole, Joint, Outline, Plan, Purpose, Wall, WallPlan,
};

const TABLE: &str = include_str!("../../../reference/box_solids.csv");

/// The order of the table's walls.
const WALLS: [(char, Wall); 6] = [
    ('F', Wall::Front),
    ('B', Wall::Back),
    ('L', Wall::Left),
    ('R', Wall::Right),
    ('T', Wall::Top),
    ('U', Wall::Bottom),
];

/// The table is written to 1e-6 mm³ and 1e-8 mm, and cuts round things into polygons of the
/// same area; facets of rounded edges shift a centroid by some nanometres.
const VOLUME: f64 = 1e-9;
const PLACE_MM: f64 = 2e-5;

struct Row<'a> {
    pattern: &'a str,
    order: &'a str,
    /// All numbers, from the width on.
    numbers: Vec<f64>,
}

fn rows() -> Vec<Row<'static>> {
    let lines = TABLE.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines
        .map(|line| {
            let mut words = line.split(',');
            let mut word = || words.next().expect("a field");
            let (pattern, order) = (word(), word());
            let numbers = words.map(|word| word.parse().expect("a number")).collect();
            Row {
                pattern,
                order,
                numbers,
            }
        })
        .collect()
}

impl Row<'_> {
    fn mm(&self, field: usize) -> f64 {
        self.numbers[field] / 1000.0
    }

    fn thickness(&self, wall: Wall) -> f64 {
        self.mm(5 + wall.index())
    }

    /// Place in the order in which walls run through.
    fn place(&self, wall: Wall) -> usize {
        let (letter, _) = WALLS[wall.index()];
        self.order.find(letter).expect("all walls are in the order")
    }

    fn joint(&self, edge: Edge) -> Joint {
        let flat = matches!(edge.first, Wall::Front | Wall::Back);
        match self.pattern {
            "mitre" => Joint::Mitre,
            "ring" if flat => Joint::Butt {
                through: edge.first,
            },
            "inset" if flat => Joint::Butt {
                through: edge.second,
            },
            "ring" | "inset" => Joint::Mitre,
            pattern => {
                let first = self.place(edge.first) < self.place(edge.second);
                let within = if first { edge.first } else { edge.second };
                if pattern == "rebate" {
                    let depth = self.numbers[12] * self.thickness(within);
                    Joint::Rebate { within, depth }
                } else {
                    Joint::Butt { through: within }
                }
            }
        }
    }

    fn hole(&self, wall: Wall, field: usize, pocket: Option<f64>) -> Option<Hole> {
        let diameter = self.mm(field + 2);
        (diameter > 0.0).then(|| Hole {
            wall,
            at: [self.mm(field), self.mm(field + 1)],
            outline: Outline::Circle { diameter },
            pocket,
            purpose: Purpose::Driver,
            label: String::new(),
        })
    }

    fn plan(&self) -> Plan {
        let holes = [
            self.hole(Wall::Front, 13, None),
            self.hole(Wall::Top, 16, Some(0.006)),
        ];
        let round = self.mm(19);
        let ring = Edge::ALL
            .into_iter()
            .filter(|edge| round > 0.0 && !matches!(edge.first, Wall::Front | Wall::Back));
        Plan {
            block: Block {
                width: self.mm(0),
                height: self.mm(1),
                depth: self.mm(2),
                front_lean: self.numbers[3].to_radians(),
                back_lean: self.numbers[4].to_radians(),
            },
            walls: Wall::ALL.map(|wall| WallPlan {
                thickness: self.thickness(wall),
                setback: if wall == Wall::Front {
                    self.mm(11)
                } else {
                    0.0
                },
            }),
            joints: Edge::ALL.map(|edge| self.joint(edge)),
            edges: ring.map(|edge| (edge, EdgeForm::Round(round))).collect(),
            holes: holes.into_iter().flatten().collect(),
            boards: Vec::new(),
        }
    }
}

#[test]
fn walls_are_those_of_a_mesh_library() {
    let rows = rows();
    assert_eq!(rows.len(), 11);
    for row in &rows {
        let body = Body::new(&row.plan()).expect("the plan leaves a solid");
        for (k, (_, wall)) in WALLS.into_iter().enumerate() {
            let panel = body.wall(wall);
            let wanted = &row.numbers[20 + 4 * k..24 + 4 * k];
            let about = format!("{wall:?} of {} {}", row.pattern, row.order);
            let volume = panel.volume() * 1e9;
            let off = volume / wanted[0] - 1.0;
            assert!(off.abs() < VOLUME, "{about}: {volume} mm³, off by {off}");
            for (found, wanted) in panel.centroid().into_iter().zip(&wanted[1..]) {
                let off = found * 1000.0 - wanted;
                assert!(off.abs() < PLACE_MM, "{about}: off by {off} mm");
            }
        }
    }
}
