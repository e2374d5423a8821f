//! Eight zones side by side give the same bits as one after the other.
//!
//! Start at the test.

use crate::oracle_agrees::dice::Dice;
use winterledger::equipment::output::{MachineHour, Output};
use winterledger::lane::{Lane, Lanes};
use winterledger::load::RoomHour;
use winterledger::simulation::kernel::{
    Cooler, Handover, Heater, Worth, ZoneHour, ZoneOutcome, ample_hour, hour,
};

const N: usize = 8;

/// One zone's numbers, in whatever the lanes are made of.
#[derive(Clone, Copy)]
struct Made<F> {
    room: RoomHour<F>,
    start_c: F,
    set_point_c: F,
    vent_c: F,
    heaters: [Heater<F>; 3],
    locked_out: F,
    worth: Worth<F>,
    cooler: Cooler<F>,
}

/// How a zone is equipped, which the lanes of one run share.
#[derive(Clone, Copy)]
struct Shape {
    heaters: usize,
    handover: bool,
    on_cost: bool,
    whole_hour: bool,
    cooler: bool,
}

fn machine(dice: &mut Dice) -> MachineHour<f64> {
    let greatest = if dice.chance(0.15) { 0.0 } else { dice.real(2.0, 12.0) };
    let least = if dice.chance(0.3) { greatest.max(1.0) } else { dice.real(0.5, 2.0) };
    MachineHour {
        least,
        rated: least.max(greatest * 0.7),
        greatest,
        power_least: least * dice.real(0.2, 0.6),
        slope_low: dice.real(0.2, 0.6),
        slope_high: dice.real(0.3, 0.9),
        side: dice.real(0.0, 0.5),
        pilot: if dice.chance(0.2) { dice.real(0.0, 0.5) } else { 0.0 },
    }
}

fn zone(dice: &mut Dice, limited: bool) -> Made<f64> {
    let heater = |dice: &mut Dice| {
        let (machine, cycling_loss, ducts) = (machine(dice), dice.real(0.0, 0.5), dice.real(0.7, 1.0));
        let fuel_most = limited.then(|| if dice.chance(0.2) { 0.0 } else { dice.real(0.0, 12.0) });
        Heater { machine, cycling_loss, ducts, before_ducts: 1.0 / ducts, fuel_most }
    };
    Made {
        room: RoomHour::new(
            dice.real(0.05, 0.5),
            dice.real(0.0, 3.0),
            if dice.chance(0.2) { 0.0 } else { dice.real(0.5, 0.99) },
            dice.real(-30.0, 38.0),
        ),
        start_c: dice.real(12.0, 27.0),
        set_point_c: dice.real(16.0, 22.0),
        vent_c: dice.real(24.0, 28.0),
        heaters: [heater(dice), heater(dice), heater(dice)],
        worth: Worth {
            lead: dice.real(0.1, 0.4),
            alternate: dice.real(0.02, 0.2),
            side: dice.real(0.1, 0.4),
        },
        locked_out: if dice.chance(0.3) { 1.0 } else { 0.0 },
        cooler: Cooler {
            machine: machine(dice),
            cycling_loss: dice.real(0.0, 0.5),
            sensible: dice.real(0.5, 0.9),
            set_point_c: dice.real(23.0, 26.0),
        },
    }
}

fn run<F: Lane>(made: &Made<F>, shape: Shape) -> (ZoneOutcome<F>, (F, F)) {
    let zone = ZoneHour {
        room: made.room,
        start_c: made.start_c,
        set_point_c: made.set_point_c,
        vent_c: made.vent_c,
        heaters: &made.heaters[..shape.heaters],
        handover: shape.handover.then_some(Handover {
            locked_out: made.locked_out,
            whole_hour: shape.whole_hour,
            worth: shape.on_cost.then_some(made.worth),
        }),
        cooler: shape.cooler.then_some(made.cooler),
    };
    (hour(&zone), ample_hour(&zone))
}

fn lanes(made: &[Made<f64>; N]) -> Made<Lanes<N>> {
    let all = |f: &dyn Fn(&Made<f64>) -> f64| Lanes(std::array::from_fn(|i| f(&made[i])));
    let machine = |f: &dyn Fn(&Made<f64>) -> MachineHour<f64>| MachineHour {
        least: all(&|m| f(m).least),
        rated: all(&|m| f(m).rated),
        greatest: all(&|m| f(m).greatest),
        power_least: all(&|m| f(m).power_least),
        slope_low: all(&|m| f(m).slope_low),
        slope_high: all(&|m| f(m).slope_high),
        side: all(&|m| f(m).side),
        pilot: all(&|m| f(m).pilot),
    };
    let heater = |h: usize| Heater {
        machine: machine(&|m| m.heaters[h].machine),
        cycling_loss: all(&|m| m.heaters[h].cycling_loss),
        ducts: all(&|m| m.heaters[h].ducts),
        before_ducts: all(&|m| m.heaters[h].before_ducts),
        fuel_most: made[0].heaters[h].fuel_most.map(|_| all(&|m| m.heaters[h].fuel_most.unwrap())),
    };
    Made {
        room: RoomHour::new(
            all(&|m| m.room.loss_kw_k),
            all(&|m| m.room.gains_kw),
            all(&|m| m.room.decay),
            all(&|m| m.room.outdoor_c),
        ),
        start_c: all(&|m| m.start_c),
        set_point_c: all(&|m| m.set_point_c),
        vent_c: all(&|m| m.vent_c),
        heaters: [heater(0), heater(1), heater(2)],
        locked_out: all(&|m| m.locked_out),
        worth: Worth {
            lead: all(&|m| m.worth.lead),
            alternate: all(&|m| m.worth.alternate),
            side: all(&|m| m.worth.side),
        },
        cooler: Cooler {
            machine: machine(&|m| m.cooler.machine),
            cycling_loss: all(&|m| m.cooler.cycling_loss),
            sensible: all(&|m| m.cooler.sensible),
            set_point_c: all(&|m| m.cooler.set_point_c),
        },
    }
}

/// Every number of an outcome, in order.
fn numbers<F: Copy>((outcome, ample): &(ZoneOutcome<F>, (F, F))) -> Vec<F> {
    let of = |o: &Output<F>| [o.heat, o.draw, o.side, o.running];
    let mut all = vec![
        outcome.need,
        outcome.heat,
        outcome.cooling_need,
        outcome.cooling,
        outcome.end_c,
        outcome.vented_k,
        ample.0,
        ample.1,
    ];
    all.extend(outcome.in_room);
    all.extend(outcome.heaters.iter().chain([&outcome.cooler]).flat_map(of));
    all
}

#[test]
fn eight_lanes_give_the_bits_of_eight_single_runs() {
    let mut dice = Dice::new(7);
    for round in 0..2000 {
        let handover = dice.chance(0.5);
        let shape = Shape {
            heaters: if handover { 2 } else { 1 } + dice.below(2),
            handover,
            on_cost: dice.chance(0.5),
            whole_hour: dice.chance(0.5),
            cooler: dice.chance(0.5),
        };
        let limited = dice.chance(0.5);
        let made: [Made<f64>; N] = std::array::from_fn(|_| zone(&mut dice, limited));
        let side_by_side = numbers(&run(&lanes(&made), shape));
        for (i, one) in made.iter().enumerate() {
            let outcome = run(one, shape).0;
            assert!(outcome.heat <= outcome.need + 1e-9, "round {round}, lane {i}: {outcome:?}");
            for (n, (a, b)) in side_by_side.iter().zip(numbers(&run(one, shape))).enumerate() {
                assert_eq!(a.0[i].to_bits(), b.to_bits(), "round {round}, lane {i}, number {n}: {a:?} {b}");
            }
        }
    }
}
