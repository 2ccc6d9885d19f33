//! What was worked out before for the same question, shared by a design and its variants.

use std::sync::{Arc, Mutex, PoisonError};

/// Answers kept at most; beyond that, the older half is forgotten.
const MOST: usize = 1024;

/// Questions met so far and their answers.
#[derive(Debug)]
pub(crate) struct Memo<Q, A>(Arc<Mutex<Vec<Met<Q, A>>>>);

/// A question and its answer.
type Met<Q, A> = (Q, Arc<A>);

impl<Q, A> Clone for Memo<Q, A> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

impl<Q, A> Default for Memo<Q, A> {
    fn default() -> Self {
        Self(Arc::default())
    }
}

impl<Q: PartialEq, A> Memo<Q, A> {
    /// The answer to a question, worked out where it was not met before.
    pub(crate) fn of(&self, question: Q, answer: impl FnOnce(&Q) -> A) -> Arc<A> {
        let known = self.list(|met| {
            // What was asked lately is asked again, and what is asked again is kept longer.
            let at = met.iter().rposition(|(other, _)| *other == question)?;
            if at < met.len() / 2 {
                met[at..].rotate_left(1);
                return met.last().map(|(_, answer)| Arc::clone(answer));
            }
            Some(Arc::clone(&met[at].1))
        });
        known.unwrap_or_else(|| {
            let answer = Arc::new(answer(&question));
            self.list(|met| {
                if met.len() >= MOST {
                    met.drain(..MOST / 2);
                }
                met.push((question, Arc::clone(&answer)));
            });
            answer
        })
    }

    fn list<T>(&self, ask: impl FnOnce(&mut Vec<Met<Q, A>>) -> T) -> T {
        // A list of finished answers is sound whoever gave up while holding it.
        ask(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_question_is_answered_once() {
        let memo = Memo::default();
        let mut asked = 0;
        for question in [3, 4, 3, 3] {
            let answer = memo.clone().of(question, |of| {
                asked += 1;
                10 * of
            });
            assert_eq!(*answer, 10 * question);
        }
        assert_eq!(asked, 2);
    }

    #[test]
    fn what_is_asked_again_is_kept() {
        let memo = Memo::default();
        memo.of(0, |of| *of);
        for question in 1..3 * MOST {
            memo.of(question, |of| *of);
            assert_eq!(*memo.of(0, |_| unreachable!("asked again and again")), 0);
        }
    }

    #[test]
    fn the_newest_answers_are_kept() {
        let memo = Memo::default();
        for question in 0..=MOST {
            memo.of(question, |of| *of);
        }
        let known = |question: usize| {
            let mut asked = false;
            memo.of(question, |_| {
                asked = true;
                question
            });
            !asked
        };
        assert!(known(MOST) && known(MOST / 2) && !known(0));
    }
}
