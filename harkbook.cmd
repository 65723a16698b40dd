@echo off
rem Harkbook's door on Windows: builds, then runs the command. "harkbook test" runs all tests.
setlocal
set DOTNET_CLI_TELEMETRY_OPTOUT=1
set DOTNET_NOLOGO=1
where dotnet >nul 2>nul || (echo harkbook: the .NET 10 SDK is needed: winget install Microsoft.DotNet.SDK.10 1>&2 & exit /b 3)
where ffmpeg >nul 2>nul || echo harkbook: ffmpeg is not installed; only WAV and AIFF can be read and no video made. winget install Gyan.FFmpeg 1>&2
if "%~1"=="test" goto test
dotnet build "%~dp0src\App\Harkbook.App.csproj" -c Release -v q -clp:NoSummary || exit /b 3
dotnet "%~dp0src\App\bin\Release\net10.0\Harkbook.App.dll" %*
exit /b %errorlevel%
:test
dotnet test --solution "%~dp0Harkbook.slnx" -c Release
exit /b %errorlevel%
