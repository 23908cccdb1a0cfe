package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/klippa-app/go-pdfium/requests"
	"github.com/stretchr/testify/require"

	"loomleaf/internal/page"
)

// pictures are the pages of the demo job that the README shows, by the name of their picture.
func pictures() map[string]string {
	return map[string]string{"cutlist.png": "cutlist/J2/1", "pins.png": "pins/P4/0041/1", "labels.png": "labels/1"}
}

const pictureFolder = "../../testdata/pictures"

// TestPicturesOfTheReadmeAreCurrent compares the pictures with the pages as they print now; -update draws them anew.
func TestPicturesOfTheReadmeAreCurrent(t *testing.T) {
	d := made(t, "sled", jobText(t, "sled"))
	for name, pageName := range pictures() {
		document := d.packet.Pages
		if strings.HasPrefix(pageName, "labels/") {
			document = d.packet.Labels
		}
		drawn := draw(t, document, pageName)
		path := filepath.Join(pictureFolder, name)
		if *update {
			var file bytes.Buffer
			require.NoError(t, png.Encode(&file, drawn))
			require.NoError(t, os.MkdirAll(pictureFolder, 0o755))
			require.NoError(t, os.WriteFile(path, file.Bytes(), 0o644))
		}
		file, err := os.Open(path)
		require.NoError(t, err)
		defer file.Close()
		shown, err := png.Decode(file)
		require.NoError(t, err)
		require.Equal(t, drawn.Bounds(), shown.Bounds(), name)
		require.True(t, bytes.Equal(drawn.Pix, shown.(*image.Gray).Pix), "%s shows an older page: run with -update", name)
	}
}

func TestEveryPictureIsShown(t *testing.T) {
	entries, err := os.ReadDir(pictureFolder)
	require.NoError(t, err)
	readme := readmeText(t)
	for _, e := range entries {
		require.Contains(t, pictures(), e.Name(), "no test draws this picture")
		require.Contains(t, readme, "testdata/pictures/"+e.Name())
	}
}

// draw renders one page in grey, small enough for a README.
func draw(t *testing.T, document page.Document, name string) *image.Gray {
	t.Helper()
	index := slices.IndexFunc(document.Pages, func(p page.Page) bool { return p.Name == name })
	require.GreaterOrEqual(t, index, 0, name)
	instance, opened := printed(t, document)
	defer instance.Close()
	rendered, err := instance.RenderPageInDPI(&requests.RenderPageInDPI{
		DPI: 80, ImageFormat: requests.RenderImageFormatGrayscale,
		Page: requests.Page{ByIndex: &requests.PageByIndex{Document: opened, Index: index}},
	})
	require.NoError(t, err)
	defer rendered.Cleanup()
	picture := rendered.Result.RenderedImage.(*image.Gray)
	packed := image.NewGray(picture.Bounds())
	for y := range picture.Bounds().Dy() {
		copy(packed.Pix[y*packed.Stride:(y+1)*packed.Stride], picture.Pix[y*picture.Stride:])
	}
	return packed
}
