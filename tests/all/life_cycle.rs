//! Life-cycle costs and loans against numpy-financial, on cases made at random.

use serde_json::{Value, json};
use winterledger::economics::{Costs, Loan, Replacement, Terms, life_cycle};

use crate::oracle_agrees::dice::Dice;
use crate::outside::Outside;
use crate::python;

const CASES: u64 = 1000;

struct Case {
    costs: Costs,
    terms: Terms,
}

fn case(seed: u64) -> Case {
    let mut dice = Dice::new(seed);
    let count = dice.below(3);
    let loan = dice.chance(0.5).then(|| Loan {
        amount: dice.real(500.0, 20_000.0),
        yearly_rate: if dice.chance(0.1) { 0.0 } else { dice.real(0.005, 0.12) },
        months: 1 + dice.below(180),
    });
    let costs = Costs {
        installed: dice.real(0.0, 30_000.0),
        incentives: dice.real(0.0, 4000.0),
        loan,
        upkeep: dice.real(0.0, 500.0),
        replacements: (0..count)
            .map(|_| Replacement { life_years: 1 + dice.below(30), cost: dice.real(100.0, 12_000.0) })
            .collect(),
        yearly: (0..count + 1).map(|_| (dice.real(50.0, 5000.0), dice.real(-0.02, 0.05))).collect(),
    };
    let terms = Terms {
        years: 1 + dice.below(30),
        discount_rate: dice.real(0.0, 0.08),
        inflation: dice.real(0.0, 0.05),
    };
    Case { costs, terms }
}

fn asked(case: &Case) -> Value {
    let (c, t) = (&case.costs, &case.terms);
    let parts: Vec<_> = c.replacements.iter().map(|r| json!([r.life_years, r.cost])).collect();
    let loan = c.loan.map(|l| json!({"amount": l.amount, "yearly_rate": l.yearly_rate, "months": l.months}));
    json!({
        "years": t.years, "discount_rate": t.discount_rate, "inflation": t.inflation,
        "installed": c.installed, "incentives": c.incentives, "upkeep": c.upkeep, "yearly": c.yearly,
        "replacements": parts, "loan": loan,
    })
}

/// Independent tool: numpy-financial 1.0.0 (npv, pmt) on flows laid out year by year in Python.
#[test]
fn a_thousand_random_life_cycles_agree_with_numpy_financial() {
    let cases: Vec<Case> = (0..CASES).map(case).collect();
    let question = json!({"cases": cases.iter().map(asked).collect::<Vec<_>>()});
    let reply = python::run("life_cycle_reference.py", &question.to_string());
    assert_eq!(reply["version"], "1.0.0");
    let answers = reply["answers"].as_array().unwrap();
    assert_eq!(answers.len(), cases.len());
    let (mut of_cost, mut of_payment) = (0.0_f64, 0.0_f64);
    for (case, theirs) in cases.iter().zip(answers) {
        let ours = life_cycle(&case.costs, &case.terms).total();
        let total = theirs["total"].as_f64().unwrap();
        of_cost = of_cost.max((ours - total).abs() / total.abs().max(1.0));
        let payment = case.costs.loan.map_or(0.0, |loan| loan.monthly_payment());
        let theirs = theirs["payment"].as_f64().unwrap();
        of_payment = of_payment.max((payment - theirs).abs() / theirs.max(1.0));
    }
    for (of, largest) in [("life-cycle cost", of_cost), ("monthly payment", of_payment)] {
        let what = format!("{of}, largest share by which one of 1,000 random cases differs");
        let (origin, source) = ("independent tool", "numpy-financial 1.0.0");
        Outside { what, origin, source, value: 0.0, tolerance: 1e-9 }.holds(largest);
    }
}
