package crew_test

import (
	"fmt"

	"tautline/stdlib/crew"
	"tautline/stdlib/units"
)

// Two people put up a tent: the bed fills while stakes are driven.
func ExampleArrange() {
	plan, err := crew.Arrange([]crew.Step{
		{Name: "unroll", Time: 4 * units.Min, People: 2},
		{Name: "fill", After: []string{"unroll"}, Time: 10 * units.Min},
		{Name: "stakes", Time: 8 * units.Min, People: 1},
		{Name: "straps", After: []string{"fill", "stakes"}, Time: 6 * units.Min, People: 1},
	}, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, name := range plan.Name {
		fmt.Printf("%2.0f min  %-7s %s\n", plan.Begin[i]/units.Min, name, plan.Who[i])
	}
	fmt.Printf("%.0f min in all, at least %.0f\n", plan.Total/units.Min, plan.Least/units.Min)
	// Output:
	//  0 min  unroll  A and B
	//  4 min  fill    nobody
	//  4 min  stakes  A
	// 14 min  straps  A
	// 20 min in all, at least 20
}

// A cart of 300 kg with hard tyres up a ramp of 3°: 300·g·(sin 3° + 0.02·cos 3°).
func ExampleCart() {
	cart := crew.Cart{Mass: 300 * units.Kg, Rolling: 0.02, Slope: 3 * units.Deg}
	fmt.Printf("%.0f N\n", cart.Push(0)/units.N)
	// Output: 213 N
}

// The best lift there is: close, at knuckle height, straight, seldom. All multipliers
// of the NIOSH equation are 1, and its constant of 23 kg is the limit.
func ExampleLift() {
	lift := crew.Lift{Mass: 20 * units.Kg, Grip: "good", Rate: 0.1 / units.Min, Work: 1 * units.H,
		From: crew.Hold{Out: 250 * units.Mm, Height: 750 * units.Mm}, To: crew.Hold{Out: 250 * units.Mm, Height: 1000 * units.Mm}}
	judged, err := lift.Judge()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("limit %.0f kg, index %.2f\n", judged.Limit/units.Kg, judged.Index)
	// Output: limit 23 kg, index 0.87
}

// A van for 1000 kg (invented) with ten rolls of 45 kg.
func ExampleVehicle() {
	van := crew.Vehicle{Name: "van", Payload: 1000 * units.Kg, Long: 3.2 * units.M, Wide: 1.7 * units.M, High: 1.8 * units.M, Door: 1.5 * units.M, Lintel: 1.7 * units.M, Fill: 0.6}
	packed, err := van.Pack([]crew.Piece{{Name: "roll", Count: 10, Mass: 45 * units.Kg, Long: 1.2 * units.M, Wide: 0.6 * units.M, High: 0.6 * units.M}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f pieces, %.0f %% of the payload, fits: %v\n", packed.Pieces(), packed.MassShare/units.Percent, packed.Fits())
	// Output: 10 pieces, 45 % of the payload, fits: true
}

// Two carry the bed, then it fills by itself while one hooks the straps in.
func ExampleSchedule() {
	plan, err := crew.Arrange([]crew.Step{
		{Name: "carry", Time: 10 * units.Min, People: 2},
		{Name: "fill", After: []string{"carry"}, Time: 8 * units.Min},
		{Name: "straps", After: []string{"carry"}, Time: 12 * units.Min, People: 1},
	}, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f min\n", plan.Total/units.Min)
	// Output: 22 min
}

// Eight seats, three in four taken, 90 s of ride and 60 s to change: 6 in 150 s.
func ExampleCycle() {
	c := crew.Cycle{Seats: 8, Taken: 0.75, Ride: 90 * units.S, Change: 60 * units.S}
	fmt.Printf("%.0f riders an hour\n", c.Throughput()*units.H)
	// Output: 144 riders an hour
}

// A trailer of 500 kg with 40 kg on the ball (invented) and 200 kg a quarter of the way
// back to the axle: three quarters of that more on the ball.
func ExampleCarriage() {
	trailer := crew.Carriage{Name: "trailer", Empty: 500 * units.Kg, EmptyFront: 40 * units.Kg, Base: 4 * units.M, Most: 1500 * units.Kg, MostFront: 250 * units.Kg, MostRear: 1400 * units.Kg}
	s, err := trailer.Load([]crew.Stowed{{Name: "bed", Mass: 200 * units.Kg, At: 1 * units.M}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f kg on the ball, %.0f kg on the axle\n", s.Front/units.Kg, s.Rear/units.Kg)
	// Output: 190 kg on the ball, 510 kg on the axle
}
