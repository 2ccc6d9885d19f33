//! Small circuits with known answers, and the guards of the solver.

use super::*;
use crate::math::{Complex, omega};

const FREQUENCIES: [f64; 3] = [20.0, 300.0, 15_000.0];

fn solve(circuit: &Circuit) -> Solution {
    Solver::new(circuit)
        .solve(circuit, &Grid::new(&FREQUENCIES))
        .expect("one solution")
}

fn near(got: Complex, expected: Complex) {
    assert!(
        (got - expected).norm() <= 1e-12 * expected.norm(),
        "{got} is not {expected}"
    );
}

/// A source of one volt between a new node and ground.
fn driven(circuit: &mut Circuit) -> Node {
    let top = circuit.node("top");
    circuit.add("source", [top, GROUND], Value::VoltageSource(1.0));
    top
}

#[test]
fn a_divider_of_all_passive_elements() {
    let mut circuit = Circuit::new();
    let top = driven(&mut circuit);
    let middle = circuit.node("middle");
    let upper = Impedance {
        resistance: 3.0,
        inductance: 1e-3,
        elastance: 1e4,
        semi: SemiInductance { k: 0.01, n: 0.6 },
    };
    let lower = Admittance {
        conductance: 0.1,
        capacitance: 2e-6,
        relaxing: 5e-6,
        relaxation: 1e-4,
    };
    circuit.add("upper", [top, middle], Value::Impedance(upper));
    circuit.add("lower", [middle, GROUND], Value::Admittance(lower));
    let solution = solve(&circuit);
    for (index, frequency) in FREQUENCIES.into_iter().enumerate() {
        let s = Complex::new(0.0, omega(frequency));
        let z = 3.0 + s * 1e-3 + 1e4 / s + s.powf(0.6) * 0.01;
        let y = 0.1 + s * 2e-6 + s * 5e-6 / (1.0 + s * 1e-4);
        near(solution.potential(index, middle), 1.0 / (1.0 + y * z));
    }
}

#[test]
fn a_gyrator_turns_a_capacitor_into_an_inductor() {
    let mut circuit = Circuit::new();
    let top = driven(&mut circuit);
    let far = circuit.node("far");
    circuit.capacitor("c", [far, GROUND], 1e-3);
    let gyrator = circuit.add_two_port("g", [top, GROUND], [far, GROUND], Value::Gyrator(5.0));
    let solution = solve(&circuit);
    for (index, frequency) in FREQUENCIES.into_iter().enumerate() {
        let inductance = 5.0 * 5.0 * 1e-3;
        let expected = 1.0 / Complex::new(0.0, omega(frequency) * inductance);
        near(solution.currents(index, gyrator)[0], expected);
        assert!(solution.power(index, gyrator).abs() < 1e-15);
    }
}

#[test]
fn a_transformer_multiplies_impedance_by_its_ratio_squared() {
    let mut circuit = Circuit::new();
    let top = driven(&mut circuit);
    let far = circuit.node("far");
    circuit.resistor("r", [far, GROUND], 8.0);
    let ports = ([top, GROUND], [GROUND, far]);
    let transformer = circuit.add_two_port("t", ports.0, ports.1, Value::Transformer(3.0));
    let solution = solve(&circuit);
    near(
        solution.currents(0, transformer)[0],
        Complex::new(1.0 / 72.0, 0.0),
    );
    // The second port is turned round.
    near(solution.potential(0, far), Complex::new(-1.0 / 3.0, 0.0));
    assert!(solution.power(0, transformer).abs() < 1e-16);
}

#[test]
fn a_current_source_goes_through_itself_from_first_to_second() {
    let mut circuit = Circuit::new();
    let top = circuit.node("top");
    let source = circuit.add("i", [GROUND, top], Value::CurrentSource(2.0));
    let load = circuit.resistor("r", [top, GROUND], 5.0);
    let solution = solve(&circuit);
    near(solution.potential(0, top), Complex::new(10.0, 0.0));
    assert!((solution.power(0, load) - 20.0).abs() < 1e-12);
    assert!((solution.power(0, source) + 20.0).abs() < 1e-12);
}

#[test]
fn a_vanished_pivot_is_solved_densely() {
    let ladder = |r: f64| {
        let mut circuit = Circuit::new();
        let top = driven(&mut circuit);
        let mut last = top;
        for step in 0..4 {
            let next = circuit.node(format!("n{step}"));
            let series = Impedance {
                elastance: 1e3 * r,
                ..Impedance::resistor(r)
            };
            circuit.add(format!("z{step}"), [last, next], Value::Impedance(series));
            circuit.add(
                format!("y{step}"),
                [next, GROUND],
                Value::Admittance(Admittance::conductance(r)),
            );
            last = next;
        }
        (circuit, last)
    };
    let (full, _) = ladder(1.0);
    let (shorted, end) = ladder(0.0);
    let mut solver = Solver::new(&full);
    let solution = solver
        .solve(&shorted, &Grid::new(&FREQUENCIES))
        .expect("one solution");
    near(solution.potential(1, end), Complex::new(1.0, 0.0));
}

#[test]
fn networks_without_one_solution_are_refused() {
    let mut floating = Circuit::new();
    let a = floating.node("a");
    let b = floating.node("b");
    floating.resistor("r", [a, b], 1.0);
    let band = Grid::new(&FREQUENCIES);
    assert!(Solver::new(&floating).solve(&floating, &band).is_err());

    let mut fighting = Circuit::new();
    let top = driven(&mut fighting);
    fighting.add("other", [top, GROUND], Value::VoltageSource(2.0));
    assert!(Solver::new(&fighting).solve(&fighting, &band).is_err());

    let mut broken = Circuit::new();
    let top = driven(&mut broken);
    broken.resistor("r", [top, GROUND], f64::NAN);
    assert!(Solver::new(&broken).solve(&broken, &band).is_err());
}

#[test]
#[should_panic(expected = "would change its kind")]
fn kinds_stay() {
    let mut circuit = Circuit::new();
    let top = driven(&mut circuit);
    let r = circuit.resistor("r", [top, GROUND], 1.0);
    circuit.set(r, Value::CurrentSource(1.0));
}

#[test]
#[should_panic(expected = "positive and finite")]
fn zero_frequency_is_refused() {
    let _ = Grid::new(&[0.0]);
}

#[test]
fn netlists_keep_titles_on_one_line() {
    let mut circuit = Circuit::new();
    driven(&mut circuit);
    let text = circuit.netlist("a\n.end", &["b\r\nc".into()], &Analysis::Single(10.0));
    assert!(text.starts_with("* a .end\n* b c\nVsource"));
    assert!(text.ends_with("\n.end\n"));
}

#[test]
fn the_equations_can_be_read_and_hold() {
    let mut circuit = Circuit::new();
    let top = driven(&mut circuit);
    let middle = circuit.node("middle");
    circuit.resistor("r", [top, middle], 50.0);
    circuit.inductor("l", [middle, GROUND], 2e-3);
    let mut solver = Solver::new(&circuit);
    let band = Band::splat(1_000.0);
    solver.solve_band(&band).expect("one solution");
    let unknowns = solver.unknowns().to_vec();
    // Filled in once more without being solved, they are still the same.
    solver.assemble(&band);
    let size = solver.size();
    assert_eq!(size, 2 + 3, "two nodes and three currents");
    let mut sums = vec![Complex::ZERO; size];
    let mut sources = vec![Complex::ZERO; size];
    for (row, column, value) in solver.equations() {
        if column == size {
            sources[row] += value.lane(0);
        } else {
            sums[row] += value.lane(0) * unknowns[column].lane(0);
        }
    }
    assert!(sources.contains(&Complex::new(1.0, 0.0)));
    for (sum, source) in sums.into_iter().zip(sources) {
        assert!((sum - source).norm() < 1e-14, "{sum} is not {source}");
    }
}
