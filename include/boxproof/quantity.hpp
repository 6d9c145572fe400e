// Numbers that know what they measure, so that an ampere cannot be handed in as a volt.
//
// Quantities of one kind add, subtract, compare and scale; two of one kind divide to a plain ratio. No
// dimensional algebra: the few formulas that mix kinds take .value() and say so. Names inside the program
// carry no unit suffix (the type is the unit); names in files always do, and the reader is where the two
// meet.
#pragma once

#include <algorithm>
#include <cmath>
#include <compare>

namespace boxproof {

template <class Tag>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double value) : value_(value) {}
  constexpr double value() const { return value_; }

  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
  friend constexpr Quantity operator*(double f, Quantity q) { return Quantity(f * q.value_); }
  friend constexpr Quantity operator*(Quantity q, double f) { return Quantity(q.value_ * f); }
  friend constexpr Quantity operator/(Quantity q, double f) { return Quantity(q.value_ / f); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  constexpr Quantity& operator+=(Quantity o) { return *this = *this + o; }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  double value_ = 0;
};

using Volts = Quantity<struct VoltsTag>;
using Amps = Quantity<struct AmpsTag>;
using Watts = Quantity<struct WattsTag>;
using Metres = Quantity<struct MetresTag>;
using Millimetres = Quantity<struct MillimetresTag>;
using OhmsPerKilometre = Quantity<struct OhmsPerKilometreTag>;
using Kelvin = Quantity<struct KelvinTag>;  // a difference of temperatures

// A point on the temperature scale: two of them differ by Kelvin and do not add.
class Celsius {
 public:
  constexpr Celsius() = default;
  constexpr explicit Celsius(double value) : value_(value) {}
  constexpr double value() const { return value_; }
  friend constexpr Kelvin operator-(Celsius a, Celsius b) { return Kelvin(a.value_ - b.value_); }
  friend constexpr Celsius operator+(Celsius a, Kelvin d) { return Celsius(a.value_ + d.value()); }
  friend constexpr auto operator<=>(Celsius, Celsius) = default;

 private:
  double value_ = 0;
};

// A relative temperature coefficient. Data sheets print it in percent, and percent is the only way in.
class PercentPerKelvin {
 public:
  constexpr explicit PercentPerKelvin(double percent) : percent_(percent) {}
  constexpr double percent() const { return percent_; }
  // The factor on a value that is stated at 25 °C, at a temperature d away from that.
  constexpr double factor(Kelvin d) const { return 1 + percent_ / 100 * d.value(); }

 private:
  double percent_;
};
using VoltsPerKelvin = Quantity<struct VoltsPerKelvinTag>;

// Comparisons against limits allow this relative slack, in the direction that spares a false finding:
// 15.000000001 A is 15 A.
inline constexpr double slack = 1e-9;

constexpr bool exceeds(double value, double limit) {
  const double room = slack * (limit < 0 ? -limit : limit);
  return value > limit + room;
}
template <class Tag>
constexpr bool exceeds(Quantity<Tag> value, Quantity<Tag> limit) {
  return exceeds(value.value(), limit.value());
}

}  // namespace boxproof
