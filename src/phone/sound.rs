//! The alarm: two tones, made by the phone itself, and a buzz where it can.
//!
//! Browsers sound only after a tap, and only while the page lives: [`unlock`] belongs on the tap that
//! starts a round, and a phone that slept rings late, not never.

use super::js::{call, get, navigator};
use js_sys::{Array, Reflect};
use std::cell::RefCell;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{AudioContext, AudioContextState, GainNode, OscillatorNode, OscillatorType};

/// One call is two tones and a pause; the alarm repeats it and then rests, so that a phone left in a
/// drawer does not ring for ever.
const CALLS: u32 = 40;
const CALL_SECONDS: f64 = 1.5;
/// Start, length and pitch of the tones in a call.
const TONES: [(f64, f64, f32); 2] = [(0.0, 0.25, 880.0), (0.35, 0.25, 660.0)];
const LOUD: f32 = 0.5;
/// A few milliseconds of slope, since a tone cut square clicks.
const SLOPE: f64 = 0.01;
/// Buzz and rest by turns, in milliseconds.
const BUZZ: [u32; 4] = [250, 100, 250, 900];

/// Whether the alarm is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ringing {
    /// It sounds, as far as the browser says; a phone can still be muted.
    Sounding,
    /// The browser holds it back until the next tap, which should call [`unlock`].
    Locked,
    /// This browser makes no sound.
    Absent,
}

thread_local! {
    static CONTEXT: RefCell<Option<AudioContext>> = const { RefCell::new(None) };
    static ALARM: RefCell<Option<(OscillatorNode, GainNode)>> = const { RefCell::new(None) };
}

/// Makes what sounds, silent still: that takes a phone long, and nobody is to wait for it at the tap
/// that starts a round. Harmless to repeat.
pub fn prepare() {
    context();
}

/// Makes ready to sound. To be called in the handler of a tap. Harmless to repeat, and needed again
/// after a call or a locked screen took the sound away.
pub fn unlock() -> Ringing {
    let Some(context) = context() else { return Ringing::Absent };
    if context.state() != AudioContextState::Running {
        // Its promise tells nothing that the state does not.
        let _ = context.resume();
    }
    state(&context)
}

/// Whether a tap has allowed sound, or whether there is none to allow.
pub fn allowed() -> Ringing {
    if web_sys::window().is_none_or(|window| get(&window, "AudioContext").is_none()) {
        return Ringing::Absent;
    }
    CONTEXT.with_borrow(|kept| kept.as_ref().map_or(Ringing::Locked, state))
}

/// Whether this browser can make the phone buzz. Whether the phone has what buzzes is not told.
pub fn buzzes() -> bool {
    navigator().is_some_and(|navigator| get(&navigator, "vibrate").is_some())
}

/// Sounds the alarm until [`stop`] or for a minute. If it is held back it starts at the next
/// [`unlock`].
pub fn ring() -> Ringing {
    stop();
    buzz();
    let Some(context) = context() else { return Ringing::Absent };
    let _ = context.resume();
    match schedule(&context) {
        Ok(alarm) => {
            ALARM.set(Some(alarm));
            state(&context)
        }
        Err(_) => Ringing::Absent,
    }
}

/// Ends the alarm.
pub fn stop() {
    if let Some((tone, volume)) = ALARM.take() {
        // Either fails only where it has ended by itself.
        let _ = volume.disconnect();
        let _ = tone.disconnect();
    }
    vibrate(&JsValue::from(0));
}

fn schedule(context: &AudioContext) -> Result<(OscillatorNode, GainNode), JsValue> {
    let tone = context.create_oscillator()?;
    let volume = context.create_gain()?;
    tone.set_type(OscillatorType::Triangle);
    tone.connect_with_audio_node(&volume)?;
    volume.connect_with_audio_node(&context.destination())?;
    let begin = context.current_time() + 0.05;
    volume.gain().set_value_at_time(0.0, context.current_time())?;
    for call in 0..CALLS {
        let call_begin = begin + f64::from(call) * CALL_SECONDS;
        for (after, length, pitch) in TONES {
            let (on, off) = (call_begin + after, call_begin + after + length);
            tone.frequency().set_value_at_time(pitch, on)?;
            volume.gain().set_value_at_time(0.0, on)?;
            volume.gain().linear_ramp_to_value_at_time(LOUD, on + SLOPE)?;
            volume.gain().set_value_at_time(LOUD, off - SLOPE)?;
            volume.gain().linear_ramp_to_value_at_time(0.0, off)?;
        }
    }
    tone.start_with_when(begin)?;
    tone.stop_with_when(begin + f64::from(CALLS) * CALL_SECONDS)?;
    Ok((tone, volume))
}

fn context() -> Option<AudioContext> {
    CONTEXT.with_borrow_mut(|kept| {
        if kept.is_none() {
            // Where the browser knows the difference: an alarm sounds though the phone is muted.
            if let Some(session) = navigator().and_then(|n| get(&n, "audioSession")) {
                let _ = Reflect::set(&session, &"type".into(), &"playback".into());
            }
            *kept = AudioContext::new().ok();
        }
        kept.clone()
    })
}

/// Any state but running needs a tap: Safari has one more than the standard's, `interrupted`.
fn state(context: &AudioContext) -> Ringing {
    if context.state() == AudioContextState::Running { Ringing::Sounding } else { Ringing::Locked }
}

fn buzz() {
    let pattern: Array =
        BUZZ.iter().cycle().take(BUZZ.len() * 10).map(|&ms| JsValue::from(ms)).collect();
    vibrate(pattern.unchecked_ref());
}

/// Not every phone can, and none has to.
fn vibrate(pattern: &JsValue) {
    if let Some(navigator) = navigator() {
        let _ = call(&navigator, "vibrate", std::slice::from_ref(pattern));
    }
}
