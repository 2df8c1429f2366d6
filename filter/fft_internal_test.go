package filter

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"
)

// Every frequency comes out once, its index is found by a pure wave, and the coefficients are those of gonum's transform; backward
// gives the signal again.
func TestTransform(t *testing.T) {
	for _, size := range []int{32, 48, 64, 96, 128, 192, 768, 1536, 6144} {
		tr := transformOf(size)
		index := make([]int, size)
		for f := range index {
			index[f] = -1
		}
		wave := make([]complex128, size)
		for f := range size {
			for n := range wave {
				wave[n] = cmplx.Exp(complex(0, 2*math.Pi*float64(f*n%size)/float64(size)))
			}
			tr.forward(wave)
			for i, c := range wave {
				if cmplx.Abs(c) > float64(size)/2 {
					if index[f] >= 0 {
						t.Fatalf("size %d: frequency %d comes out twice", size, f)
					}
					index[f] = i
				}
			}
			if size > 2000 && f == 40 {
				break
			}
		}
		x := make([]complex128, size)
		for n := range x {
			x[n] = complex(math.Sin(float64(n*n)), math.Cos(float64(3*n*n)))
		}
		want := fourier.NewCmplxFFT(size).Coefficients(nil, x)
		y := append([]complex128(nil), x...)
		tr.forward(y)
		for f, i := range index {
			if i >= 0 && cmplx.Abs(y[i]-want[f]) > 1e-15*float64(size) {
				t.Fatalf("size %d: coefficient %d is off by %g", size, f, cmplx.Abs(y[i]-want[f]))
			}
		}
		tr.backward(y)
		for n := range y {
			if cmplx.Abs(y[n]/complex(float64(size), 0)-x[n]) > 2e-15 {
				t.Fatalf("size %d: signal off by %g at %d", size, cmplx.Abs(y[n]/complex(float64(size), 0)-x[n]), n)
			}
		}
	}
}

func BenchmarkTransform(b *testing.B) {
	for _, size := range []int{4096, 6144, 8192, 12288, 16384, 65536} {
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			tr := transformOf(size)
			x := make([]complex128, size)
			for b.Loop() {
				tr.forward(x)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(size), "ns/point")
		})
	}
}
