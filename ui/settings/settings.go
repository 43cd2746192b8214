// Package settings keeps view preferences of the desktop program: how a plan is shown, never what it reckons.
// The model never reads them.
package settings

import (
	"slices"

	"fyne.io/fyne/v2"
)

// Names of the looks.
const (
	Light    = "light"
	Dark     = "dark"
	Contrast = "high contrast"
)

// Units of length and temperature.
const (
	Metres     = "metres"
	Feet       = "feet"
	Celsius    = "°C"
	Fahrenheit = "°F"
)

// mostRecent is how many files the list of recent files keeps.
const mostRecent = 8

// Keys in the preferences.
const (
	keyLook        = "look"
	keyLength      = "length"
	keyTemperature = "temperature"
	keyWidth       = "window width"
	keyHeight      = "window height"
	keyCard        = "card share"
	keyStrip       = "strip share"
	keyRecent      = "recent files"
	keySnap        = "snap"
	keyEquipment   = "equipment share"
	keyStock       = "stock share"
	keyLabels      = "labels"
	keyNewPlan     = "new plan"
)

// Settings reads and writes the preferences of one app. Defaults stand where nothing was kept or where what was
// kept makes no sense.
type Settings struct{ kept fyne.Preferences }

// New returns the settings kept in an app's preferences.
func New(kept fyne.Preferences) *Settings { return &Settings{kept} }

func (s *Settings) word(key, usual string, allowed ...string) string {
	if value := s.kept.String(key); value == usual || slices.Contains(allowed, value) {
		return value
	}
	return usual
}

// share reads a share of a split, between a twentieth and all but a twentieth.
func (s *Settings) share(key string, usual float64) float64 {
	if value := s.kept.FloatWithFallback(key, usual); value >= 0.05 && value <= 0.95 {
		return value
	}
	return usual
}

// Look is Light, Dark or Contrast.
func (s *Settings) Look() string { return s.word(keyLook, Light, Dark, Contrast) }

// SetLook keeps the look.
func (s *Settings) SetLook(look string) { s.kept.SetString(keyLook, look) }

// Length is Metres or Feet.
func (s *Settings) Length() string { return s.word(keyLength, Metres, Feet) }

// SetLength keeps the unit of length.
func (s *Settings) SetLength(unit string) { s.kept.SetString(keyLength, unit) }

// Temperature is Celsius or Fahrenheit.
func (s *Settings) Temperature() string { return s.word(keyTemperature, Celsius, Fahrenheit) }

// SetTemperature keeps the unit of temperature.
func (s *Settings) SetTemperature(unit string) { s.kept.SetString(keyTemperature, unit) }

// What the labels of links say.
const (
	NameAndMargin = "name and margin"
	NameAlone     = "name alone"
	NameMarginRun = "name, margin and length"
)

// Labels is NameAndMargin, NameAlone or NameMarginRun.
func (s *Settings) Labels() string { return s.word(keyLabels, NameAndMargin, NameAlone, NameMarginRun) }

// SetLabels keeps what the labels of links say.
func (s *Settings) SetLabels(content string) { s.kept.SetString(keyLabels, content) }

// NewPlan is what new plans begin with, as the text of a plan file; blank is what the program came with.
func (s *Settings) NewPlan() string { return s.kept.String(keyNewPlan) }

// SetNewPlan keeps what new plans begin with.
func (s *Settings) SetNewPlan(text string) { s.kept.SetString(keyNewPlan, text) }

// Snap reports whether places snap to a grid while they are dragged.
func (s *Settings) Snap() bool { return s.kept.BoolWithFallback(keySnap, true) }

// SetSnap keeps whether places snap.
func (s *Settings) SetSnap(on bool) { s.kept.SetBool(keySnap, on) }

// Window is the window's size in fyne's units.
func (s *Settings) Window() fyne.Size {
	width := s.kept.FloatWithFallback(keyWidth, 1280)
	height := s.kept.FloatWithFallback(keyHeight, 800)
	if !(width >= 640 && width <= 10000) || !(height >= 480 && height <= 10000) {
		return fyne.NewSize(1280, 800)
	}
	return fyne.NewSize(float32(width), float32(height))
}

// SetWindow keeps the window's size.
func (s *Settings) SetWindow(size fyne.Size) {
	s.kept.SetFloat(keyWidth, float64(size.Width))
	s.kept.SetFloat(keyHeight, float64(size.Height))
}

// Splits are the shares of the plan beside the card and above the run strip.
func (s *Settings) Splits() (card, strip float64) {
	return s.share(keyCard, 0.78), s.share(keyStrip, 0.72)
}

// SetSplits keeps the shares of the splits.
func (s *Settings) SetSplits(card, strip float64) {
	s.kept.SetFloat(keyCard, card)
	s.kept.SetFloat(keyStrip, strip)
}

// Equipment is the share of the equipment list beside the rest.
func (s *Settings) Equipment() float64 { return s.share(keyEquipment, 0.16) }

// SetEquipment keeps the share of the equipment list.
func (s *Settings) SetEquipment(share float64) { s.kept.SetFloat(keyEquipment, share) }

// Stock is the share of the equipment list above the stock.
func (s *Settings) Stock() float64 { return s.share(keyStock, 0.5) }

// SetStock keeps the share of the equipment list above the stock.
func (s *Settings) SetStock(share float64) { s.kept.SetFloat(keyStock, share) }

// Recent lists the files used last, the latest first.
func (s *Settings) Recent() []string { return s.kept.StringList(keyRecent) }

// Used puts a file at the head of the recent files.
func (s *Settings) Used(path string) {
	list := slices.DeleteFunc(s.Recent(), func(other string) bool { return other == path })
	list = slices.Insert(list, 0, path)
	s.kept.SetStringList(keyRecent, list[:min(len(list), mostRecent)])
}

// Forget takes a file that is gone off the list of recent files.
func (s *Settings) Forget(path string) {
	s.kept.SetStringList(keyRecent, slices.DeleteFunc(s.Recent(), func(other string) bool { return other == path }))
}
