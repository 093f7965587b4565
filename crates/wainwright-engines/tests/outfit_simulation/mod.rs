//! A slow, separate simulation of car and trailer: two rigid bodies in the plane, large angles, the
//! hitch a constraint with a force that is solved for at each instant, fixed steps of the
//! fourth-order Runge–Kutta method. It shares no equation with the engine but slip = sideways speed
//! over forward speed.

use wainwright_engines::sway::Rig;

/// Step of the integration \[s\].
const STEP: f64 = 5e-4;

/// One axle: body (0 car, 1 trailer), place ahead of that body's centre [m], stiffness [N/rad], lag
/// [m].
struct Wheels {
    body: usize,
    ahead: f64,
    stiffness: f64,
    lag: f64,
}

pub struct Outfit {
    mass: [f64; 2],
    inertia: [f64; 2],
    /// Hitch ahead of each body's centre.
    hitch: [f64; 2],
    wheels: Vec<Wheels>,
    damper: f64,
    speed: f64,
}

/// x, y, heading of both bodies, their rates, then the lagging slips.
type State = Vec<f64>;

impl Outfit {
    pub fn new(rig: &Rig, speed: f64) -> Self {
        let (car, trailer) = (&rig.car, &rig.trailer);
        let wheels = |body, ahead, axle: &wainwright_engines::sway::Axle| Wheels {
            body,
            ahead,
            stiffness: axle.newtons_per_radian,
            lag: axle.relaxation.metres(),
        };
        let centre = trailer.ball_to_centre.metres();
        let mut all = vec![
            wheels(0, car.front_to_centre.metres(), &car.front),
            wheels(0, -car.centre_to_rear.metres(), &car.rear),
        ];
        all.extend(
            trailer
                .axles
                .iter()
                .map(|axle| wheels(1, centre - axle.from_ball.metres(), &axle.tyres)),
        );
        Self {
            mass: [car.mass.kilograms(), trailer.mass.kilograms()],
            inertia: [car.yaw_inertia_kg_m2, trailer.yaw_inertia_kg_m2],
            hitch: [-car.centre_to_ball.metres(), centre],
            wheels: all,
            damper: rig.hitch_damping,
            speed,
        }
    }

    /// Number of small quantities: sideways speed, yaw rate, hitch rate, hitch angle, lagging slips.
    pub fn size(&self) -> usize {
        4 + self.wheels.iter().filter(|set| set.lag > 0.0).count()
    }

    /// The small quantities after a time, from what they were.
    pub fn after(&self, small: &[f64], seconds: f64) -> Vec<f64> {
        let mut state = self.place(small);
        for _ in 0..(seconds / STEP).round() as usize {
            state = self.step(&state);
        }
        self.small(&state)
    }

    fn place(&self, small: &[f64]) -> State {
        let (v, r, hitch_rate, q) = (small[0], small[1], small[2], small[3]);
        let (reach, turn) = (self.hitch, r + hitch_rate);
        let (sin, cos) = q.sin_cos();
        let mut state = vec![0.0; 12];
        state[3] = reach[0] - reach[1] * cos;
        state[4] = -reach[1] * sin;
        state[5] = q;
        state[6] = self.speed;
        state[7] = v;
        state[8] = r;
        state[9] = self.speed + reach[1] * sin * turn;
        state[10] = v + reach[0] * r - reach[1] * cos * turn;
        state[11] = turn;
        state.extend(&small[4..]);
        state
    }

    fn small(&self, state: &[f64]) -> Vec<f64> {
        let (sin, cos) = state[2].sin_cos();
        let mut small = vec![
            -state[6] * sin + state[7] * cos,
            state[8],
            state[11] - state[8],
            state[5] - state[2],
        ];
        small.extend(&state[12..]);
        small
    }

    fn step(&self, state: &State) -> State {
        let moved = |by: &State, part: f64| -> State {
            state
                .iter()
                .zip(by)
                .map(|(s, d)| s + part * STEP * d)
                .collect()
        };
        let first = self.rate(state);
        let second = self.rate(&moved(&first, 0.5));
        let third = self.rate(&moved(&second, 0.5));
        let fourth = self.rate(&moved(&third, 1.0));
        (0..state.len())
            .map(|i| state[i] + STEP / 6.0 * (first[i] + 2.0 * (second[i] + third[i]) + fourth[i]))
            .collect()
    }

    fn rate(&self, state: &State) -> State {
        let mut rate = vec![0.0; state.len()];
        rate[..6].copy_from_slice(&state[6..12]);
        let push = self.tyre_forces(state, &mut rate);
        let free: Vec<f64> = (0..6).map(|i| push[i] / self.inertia_of(i)).collect();
        // Hitch point of body b moves with (x' − h s ψ', y' + h c ψ'): its constraint rows.
        let mut rows = [[0.0; 6]; 2];
        let mut centripetal = [0.0; 2];
        for body in 0..2 {
            let sign = [1.0, -1.0][body];
            let (sin, cos) = state[3 * body + 2].sin_cos();
            let (reach, turn) = (self.hitch[body], state[6 + 3 * body + 2]);
            rows[0][3 * body] = sign;
            rows[1][3 * body + 1] = sign;
            rows[0][3 * body + 2] = -sign * reach * sin;
            rows[1][3 * body + 2] = sign * reach * cos;
            centripetal[0] -= sign * reach * cos * turn * turn;
            centripetal[1] -= sign * reach * sin * turn * turn;
        }
        let force = self.hitch_force(&rows, &free, centripetal);
        for i in 0..6 {
            let held = rows[0][i] * force[0] + rows[1][i] * force[1];
            rate[6 + i] = free[i] + held / self.inertia_of(i);
        }
        rate
    }

    /// Forces and moments of tyres and damper on both bodies; fills in the rates of the lagging
    /// slips.
    fn tyre_forces(&self, state: &State, rate: &mut State) -> [f64; 6] {
        let mut push = [0.0; 6];
        let mut lag = 12;
        for set in &self.wheels {
            let at = 3 * set.body;
            let (sin, cos) = state[at + 2].sin_cos();
            let (east, north) = (state[6 + at], state[7 + at]);
            let forward = east * cos + north * sin;
            let sideways = north * cos - east * sin + set.ahead * state[8 + at];
            let slip = sideways.atan2(forward);
            let counts = if set.lag > 0.0 {
                rate[lag] = forward / set.lag * (slip - state[lag]);
                lag += 1;
                state[lag - 1]
            } else {
                slip
            };
            let force = -set.stiffness * counts;
            push[at] -= force * sin;
            push[at + 1] += force * cos;
            push[at + 2] += force * set.ahead;
        }
        let drag = self.damper * (state[11] - state[8]);
        push[2] += drag;
        push[5] -= drag;
        push
    }

    /// Force in the hitch that keeps both hitch points accelerating alike.
    fn hitch_force(&self, rows: &[[f64; 6]; 2], free: &[f64], centripetal: [f64; 2]) -> [f64; 2] {
        let weighted = |a: usize, b: usize| -> f64 {
            (0..6)
                .map(|i| rows[a][i] * rows[b][i] / self.inertia_of(i))
                .sum()
        };
        let wanted = [0, 1].map(|a| {
            let given: f64 = (0..6).map(|i| rows[a][i] * free[i]).sum();
            -given - centripetal[a]
        });
        let (p, q, s) = (weighted(0, 0), weighted(0, 1), weighted(1, 1));
        let whole = p * s - q * q;
        [
            (s * wanted[0] - q * wanted[1]) / whole,
            (p * wanted[1] - q * wanted[0]) / whole,
        ]
    }

    fn inertia_of(&self, index: usize) -> f64 {
        let body = index / 3;
        if index % 3 == 2 {
            self.inertia[body]
        } else {
            self.mass[body]
        }
    }
}
