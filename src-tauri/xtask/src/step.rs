//! Steps with a heading and a time each.

use std::time::{Duration, Instant};

use crate::place::Place;

/// One thing to do, and what to do when it fails.
pub struct Step {
    pub title: &'static str,
    pub remedy: &'static str,
    pub work: fn(&Place) -> Result<(), String>,
}

/// Does the steps in order and stops at the first failure. The last line printed is `N passed, M failed`.
pub fn run_all(place: &Place, steps: &[Step]) -> bool {
    let started = Instant::now();
    let passed =
        steps.iter().enumerate().take_while(|(index, step)| show(place, step, *index, steps.len())).count();
    let failed = usize::from(passed < steps.len());
    println!();
    if failed > 0 {
        println!("Not started: {} of {} steps.", steps.len() - passed - failed, steps.len());
    }
    println!("In all {}.", seconds(started.elapsed()));
    println!("{passed} passed, {failed} failed");
    failed == 0
}

/// Does the steps in order, as a part of something longer.
///
/// # Errors
/// Nothing to print any more: the failed step has told its story.
pub fn run_first(place: &Place, steps: &[Step]) -> Result<(), String> {
    let all = steps.iter().enumerate().all(|(index, step)| show(place, step, index, steps.len()));
    if all { Ok(()) } else { Err(String::new()) }
}

fn show(place: &Place, step: &Step, index: usize, of: usize) -> bool {
    println!("[{}/{of}] {} …", index + 1, step.title);
    let started = Instant::now();
    let result = (step.work)(place);
    let time = seconds(started.elapsed());
    match result {
        Ok(()) => println!("      done in {time}"),
        Err(message) => {
            println!("      FAILED after {time}");
            println!("{message}");
            println!("What to do: {}", step.remedy);
            return false;
        }
    }
    true
}

fn seconds(time: Duration) -> String {
    let all = time.as_secs_f64();
    if all < 100.0 {
        format!("{all:.1} s")
    } else {
        format!("{} min {:02} s", all as u64 / 60, all as u64 % 60)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_times_are_in_minutes() {
        assert_eq!(seconds(Duration::from_millis(12_340)), "12.3 s");
        assert_eq!(seconds(Duration::from_secs(187)), "3 min 07 s");
    }

    #[test]
    fn the_first_failure_ends_it() {
        fn passes(_: &Place) -> Result<(), String> {
            Ok(())
        }
        fn fails(_: &Place) -> Result<(), String> {
            Err("no".into())
        }
        fn is_not_reached(_: &Place) -> Result<(), String> {
            unreachable!("a step after a failed one was started")
        }
        let step = |work| Step { title: "", remedy: "", work };
        let place = Place::of_this_checkout();
        assert!(run_all(&place, &[step(passes), step(passes)]));
        assert!(!run_all(&place, &[step(passes), step(fails), step(is_not_reached)]));
    }
}
