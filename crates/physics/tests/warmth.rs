//! Laws of heat against tables, and a warm box in time against a general solver.

mod table;

use boxwright_physics::air::{Air, KELVIN, STANDARD_PRESSURE};
use boxwright_physics::warmth::{
    Facing, Network, Node, Path, film, nusselt_vertical, nusselt_vertical_laminar, radiation_film,
    wood_conductivity,
};

fn check(what: &str, got: f64, expected: f64, relative: f64) {
    assert!(
        (got / expected - 1.0).abs() < relative,
        "{what}: {got} is not {expected}"
    );
}

/// The table's air is another fit of the same properties: 1 % in the film,
/// where measured plates scatter by 15 %.
#[test]
fn natural_convection_and_radiation() {
    for row in table::numbers(include_str!("../../../reference/natural_convection.csv")) {
        let (length, rise, around) = (row[0], row[1], row[2]);
        let air = around - KELVIN;
        let between = Air::at(air + rise / 2.0, STANDARD_PRESSURE, 0.0);
        let conductivity = row[5] * length / row[4];
        let laminar = nusselt_vertical_laminar(row[3], between.prandtl);
        check("laminar Nusselt number", laminar, row[4], 1e-3);
        let over_all = nusselt_vertical(row[3], between.prandtl) * conductivity / length;
        check("film over all of the range", over_all, row[6], 1e-3);
        let ours = film(Facing::Sideways, length, air + rise, air, STANDARD_PRESSURE);
        check("film", ours, row[6], 0.01);
        let mean = around + rise / 2.0;
        check("radiation", radiation_film(0.9, mean), row[7], 1e-3);
    }
}

/// Source, film, wall and film in a row; the table carries ten digits.
#[test]
fn rise_in_a_closed_box() {
    for row in table::numbers(include_str!("../../../reference/enclosure_rise.csv")) {
        let [power, area, each, wall, conductivity] = row[..5] else {
            panic!("{row:?}")
        };
        let mut network = Network::new(STANDARD_PRESSURE);
        let outdoors = network.add(Node::held(30.0));
        let air = network.add(Node::free(10.0, power));
        let inner = network.add(Node::free(0.0, 0.0));
        let outer = network.add(Node::free(0.0, 0.0));
        network.join(air, inner, Path::Conductance(each * area));
        network.join(inner, outer, Path::Conductance(conductivity * area / wall));
        network.join(outer, outdoors, Path::Conductance(each * area));
        let rest = network.steady().unwrap();
        check("rise", rest[air] - 30.0, row[6], 1e-9);
    }
}

/// Each stage of a Foster ladder is a body of its own; the table carries ten
/// digits, the course errs by less than 1e-7 K a step.
#[test]
fn two_stages_in_time() {
    for row in table::numbers(include_str!("../../../reference/two_time_constants.csv")) {
        let mut network = Network::new(STANDARD_PRESSURE);
        let air = network.add(Node::held(0.0));
        let stages = [(row[0], row[1]), (row[2], row[3])].map(|(resistance, constant)| {
            let body = network.add(Node::free(constant / resistance, row[4]));
            network.join(body, air, Path::Conductance(1.0 / resistance));
            body
        });
        let course = network.course(&[0.0; 3], row[5], 1e-7).unwrap();
        let end = course.celsius.last().unwrap();
        let rise: f64 = stages.iter().map(|&body| end[body]).sum();
        check("rise", rise, row[6], 1e-6);
    }
}

#[test]
fn conductivity_of_species() {
    for row in table::rows(include_str!("../../../reference/wood_conductivity.csv")) {
        let (gravity, expected) = (table::number(row[1]), table::number(row[2]));
        check(row[0], wood_conductivity(gravity, 12.0), expected, 1e-8);
    }
}

/// The box of `tools/warmth.py`.
fn warm_box() -> Network {
    let mut network = Network::new(STANDARD_PRESSURE);
    let heat = [6.0, 0.5, 2.0, 0.0, 40.0];
    let capacity = [0.8, 45.0, 14.0, 1900.0, 1900.0];
    let [chip, board, air, inner, outer] =
        core::array::from_fn(|i| network.add(Node::free(capacity[i], heat[i])));
    let outdoors = network.add(Node::held(38.0));
    let still = |area, length| Path::Convection {
        area,
        length,
        facing: Facing::Sideways,
    };
    let shine = |area| Path::Radiation {
        area,
        emissivity: 0.9,
    };
    network.join(chip, board, Path::Conductance(0.4));
    network.join(board, air, still(0.012, 0.06));
    network.join(board, inner, shine(0.012));
    network.join(inner, air, still(0.42, 0.22));
    network.join(inner, outer, Path::Conductance(0.42 * 0.13 / 0.012));
    network.join(outer, outdoors, still(0.42, 0.22));
    network.join(outer, outdoors, shine(0.42));
    network
}

/// Against Radau at 1e-11: what is left is our own step control, a few times
/// 1e-6 K a step, and the least difference below which our film is held.
#[test]
fn a_warm_box_in_time_and_at_rest() {
    let network = warm_box();
    let course = network
        .course(&network.all_at(25.0), 21_600.0, 1e-6)
        .unwrap();
    for row in table::numbers(include_str!("../../../reference/box_warmth.csv")) {
        let rest = network.steady().unwrap();
        for body in 0..5 {
            let got = if row[0].is_finite() {
                course.at(&network, body, row[0])
            } else {
                rest[body]
            };
            let expected = row[body + 1];
            assert!(
                (got - expected).abs() < 2e-4,
                "body {body} after {} s: {got} is not {expected}",
                row[0]
            );
        }
    }
}

/// Ten thousand times the error a step asks for at most a hundredth of it in the answer.
#[test]
fn the_answer_does_not_hang_on_the_steps() {
    let network = warm_box();
    let end = |within: f64| {
        let course = network
            .course(&network.all_at(25.0), 3600.0, within)
            .unwrap();
        (course.seconds.len(), course.celsius.last().unwrap().clone())
    };
    let (few, coarse) = end(1e-2);
    let (many, fine) = end(1e-6);
    assert!(many > 2 * few, "{few} {many}");
    for (a, b) in coarse.iter().zip(&fine) {
        assert!((a - b).abs() < 0.02, "{a} {b}");
    }
}

/// What the sources give is stored or led away, to the rounding of the corrector.
#[test]
fn no_heat_is_lost() {
    let network = warm_box();
    let start = network.all_at(25.0);
    for seconds in [5.0, 600.0, 7200.0] {
        let course = network.course(&start, seconds, 1e-3).unwrap();
        let end = course.celsius.last().unwrap();
        let taken = course.taken.last().unwrap();
        let given = seconds * network.nodes.iter().map(|node| node.heat).sum::<f64>();
        let stored: f64 = (0..start.len())
            .map(|i| network.nodes[i].capacity * (end[i] - start[i]))
            .sum();
        let led_away = taken[5];
        assert!(
            (given - stored - led_away).abs() < 1e-6 * given.abs() + 1e-3,
            "{given} J given, {stored} stored, {led_away} led away"
        );
    }
    let rest = network.balance(&network.steady().unwrap());
    let given: f64 = network.nodes.iter().map(|node| node.heat).sum();
    assert!((rest[5] - given).abs() < 1e-7, "{} of {given} W", rest[5]);
}

#[test]
fn a_body_with_no_way_out_has_no_rest() {
    let mut network = Network::new(STANDARD_PRESSURE);
    network.add(Node::held(20.0));
    network.add(Node::free(1.0, 1.0));
    assert!(network.steady().is_none());
}

/// The time course ends where the search for the rest does: two routes to one number.
#[test]
fn time_leads_to_the_rest() {
    let network = warm_box();
    let course = network.course(&network.all_at(60.0), 3e5, 1e-5).unwrap();
    for (a, b) in course
        .celsius
        .last()
        .unwrap()
        .iter()
        .zip(network.steady().unwrap())
    {
        assert!((a - b).abs() < 1e-4, "{a} {b}");
    }
}
