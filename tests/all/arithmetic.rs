//! Works printed arithmetic again: every figure stands for all that round to it, and the printed result must
//! be among what those can come to.
//!
//! Before an equals sign stands a sum of figures, units and the words of units; it begins behind the last
//! word that is none of these. Start at [`holds`].

use winterledger::simulation::working::Step;

/// From the least to the greatest that a figure or a sum can be.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Span(f64, f64);

impl Span {
    fn of(corners: [f64; 4]) -> Self {
        Self(
            corners.iter().copied().fold(f64::INFINITY, f64::min),
            corners.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        )
    }

    fn with(self, sign: char, other: Self) -> Self {
        let Self(a, b) = other;
        match sign {
            '+' => Self(self.0 + a, self.1 + b),
            '−' => Self(self.0 - b, self.1 - a),
            '×' => Self::of([self.0 * a, self.0 * b, self.1 * a, self.1 * b]),
            // A divisor that may be nothing makes anything possible; no printed sum may lean on that.
            _ => Self::of([self.0 / a, self.0 / b, self.1 / a, self.1 / b]),
        }
    }

    fn meets(self, other: Self) -> bool {
        let slack = 1e-9 * (1.0 + self.1.abs());
        self.0 <= other.1 + slack && other.0 <= self.1 + slack
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Token {
    Figure(Span),
    Sign(char),
    Equals,
    /// A unit, or a word of one, which a sum may hold.
    Unit,
    Word,
}

/// Units and what stands within them, which leave a sum as it is.
const UNITS: [&str; 19] = [
    "kBtu/h", "kBtu", "kWh", "kW", "°F", "°C", "K", "for", "each", "gains", "gal", "cord", "ton", "therm",
    "L", "m", "ft", "ft2", "days",
];

fn figure(text: &str) -> Option<Span> {
    let plain = text.trim_start_matches('$').replace(',', "");
    let value: f64 = plain.parse().ok()?;
    let decimals = plain.split_once('.').map_or(0, |(_, part)| part.len());
    // A whole number with no point is exact: a count, or a 1 of a formula.
    let half = if decimals == 0 { 0.0 } else { 0.5 * 10_f64.powi(-(decimals as i32)) };
    Some(Span(value - half, value + half))
}

fn tokens(line: &str) -> Vec<Token> {
    let mut list = Vec::new();
    for word in line.split_whitespace() {
        let mut rest = word;
        while let Some(inner) = rest.strip_prefix('(') {
            list.push(Token::Sign('('));
            rest = inner;
        }
        let ends = rest.trim_end_matches([')', '.', ',', ';', ':']);
        let (core, end) = rest.split_at(ends.len());
        list.push(match core {
            "=" => Token::Equals,
            "+" | "−" | "×" | "/" => Token::Sign(core.chars().next().unwrap()),
            "e^" => Token::Sign('e'),
            "cos" => Token::Sign('c'),
            _ => figure(core)
                .map(Token::Figure)
                .or_else(|| {
                    // A figure below 0 has its sign on it.
                    let Span(a, b) = figure(core.strip_prefix('−')?)?;
                    Some(Token::Figure(Span(-b, -a)))
                })
                .unwrap_or(if UNITS.contains(&core) { Token::Unit } else { Token::Word }),
        });
        for sign in end.chars() {
            list.push(if sign == ')' { Token::Sign(')') } else { Token::Word });
        }
    }
    list
}

/// A sum: its value, and what is left of the tokens.
fn sum(tokens: &[Token]) -> Option<(Span, &[Token])> {
    let (mut value, mut rest) = product(tokens)?;
    while let [Token::Sign(sign @ ('+' | '−')), after @ ..] = rest {
        let (other, left) = product(after)?;
        (value, rest) = (value.with(*sign, other), left);
    }
    Some((value, rest))
}

fn product(tokens: &[Token]) -> Option<(Span, &[Token])> {
    let (mut value, mut rest) = single(tokens)?;
    while let [Token::Sign(sign @ ('×' | '/')), after @ ..] = rest {
        let (other, left) = single(after)?;
        (value, rest) = (value.with(*sign, other), left);
    }
    Some((value, rest))
}

fn single(tokens: &[Token]) -> Option<(Span, &[Token])> {
    match tokens {
        [Token::Figure(value), rest @ ..] => Some((*value, rest)),
        [Token::Sign('('), inner @ ..] => match sum(inner)? {
            (value, [Token::Sign(')'), rest @ ..]) => Some((value, rest)),
            _ => None,
        },
        [Token::Sign('e'), inner @ ..] => {
            let (Span(a, b), rest) = single(inner)?;
            Some((Span(a.exp(), b.exp()), rest))
        }
        [Token::Sign('c'), inner @ ..] => {
            // Within the rounding of a printed angle the cosine is as good as straight.
            let (Span(a, b), rest) = single(inner)?;
            let (a, b) = (a.to_radians().cos(), b.to_radians().cos());
            Some((Span(a.min(b), a.max(b)), rest))
        }
        _ => None,
    }
}

/// The sums of a line with what is printed for each; a complaint where one cannot be read or does not hold.
fn check(line: &str) -> Result<usize, String> {
    let tokens = tokens(line);
    let mut checked = 0;
    for at in (0..tokens.len()).filter(|at| tokens[*at] == Token::Equals) {
        let is_sum = |t: &Token| !matches!(t, Token::Word | Token::Equals);
        let start = tokens[..at].iter().rposition(|t| !is_sum(t)).map_or(0, |i| i + 1);
        let before: Vec<Token> = tokens[start..at].iter().copied().filter(|t| *t != Token::Unit).collect();
        let figures: Vec<Token> = tokens[at + 1..].iter().copied().filter(|t| *t != Token::Unit).collect();
        let Some((value, [])) = sum(&before) else {
            return Err(format!("no sum before an equals sign: {line}\n{before:?}"));
        };
        let Some(Token::Figure(printed)) = figures.first() else {
            return Err(format!("no figure behind an equals sign: {line}"));
        };
        if !value.meets(*printed) {
            return Err(format!("{value:?} is printed as {printed:?}: {line}"));
        }
        checked += 1;
    }
    Ok(checked)
}

/// Works every sum of these lines again; gives how many there were.
pub(crate) fn holds(lines: &[String]) -> usize {
    lines.iter().map(|line| check(line).unwrap_or_else(|complaint| panic!("{complaint}\n{lines:#?}"))).sum()
}

/// The name of a step.
pub(crate) fn kind(step: &Step) -> String {
    let text = format!("{step:?}");
    text.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default().to_owned()
}

#[test]
fn a_wrong_sum_is_found_and_a_rounded_one_holds() {
    assert_eq!(check("Need: 0.4750 kBtu/h for each °F × (70.00 °F − 17.00 °F) = 25.175 kBtu/h."), Ok(1));
    assert_eq!(check("share 2 / 3 = 0.667; 1 − 0.667 = 0.333, and e^ (−0.500) = 0.6065"), Ok(3));
    assert_eq!(check("−2.00 °F × cos 60.0 = −1.00 °F"), Ok(1));
    for wrong in ["2.00 × 3.00 = 6.04", "so (1.0 + 2.0 = 3.0", "it is = 3.0", "1.0 + 1.0 = nothing"] {
        assert!(check(wrong).is_err(), "{wrong}");
    }
    // 2.00 stands for 1.995 to 2.005: 6.02 can be.
    assert_eq!(check("2.00 × 3.00 = 6.02"), Ok(1));
}
